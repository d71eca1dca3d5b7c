import { max, sum } from 'd3-array';
import type { Scenario } from '../scenario/Scenario.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import type {
  CommonAxes,
  ComparedBy,
  ComparedScenario,
  ComparedSpot,
  ComparedTable,
  ComparedTrial,
  Comparison,
} from './Comparison.ts';
import { compareSpots } from './compareSpots.ts';
import { compareTrial } from './compareTrial.ts';
import { decisiveTrials, lettingHoursGo } from './decisiveTrials.ts';
import type { WorkOptions } from './jobPool.ts';
import { seasonMonths } from './monthlyLight.ts';
import { eachTurn, runOf, trialCount, trialsOf } from './runAll.ts';
import { distinctNames, scenarioDifferences } from './scenarioDifferences.ts';
import type { HourlyTrial, RunResult, Trial } from './Trial.ts';

/**
 * Spots and lamps of one or several runs held against each other: the light by month, the nights, what limits each
 * spot, and how much of the claim holds that an oversized cell charges fully on any ordinary day.
 *
 * in: runs, each of another scenario; by, what stands side by side
 * out: the comparison; scenarios of different weather are held against each other all the same, and `differences` says so
 * throws: InputProblem USAGE where two scenarios bear the same name; the codes of files
 */
export function compareRuns(runs: readonly RunResult<HourlyTrial>[], by: ComparedBy): Comparison {
  const trials = runs.flatMap(({ scenario, trials }) =>
    trials.map(trialComparer(scenario, runs[0]!.scenario)),
  );
  return comparisonOf(runs, trials, by);
}

/** Runs whose hours were let go, and what was compared of all their trials. */
export interface ComparedRuns {
  runs: RunResult[];
  trials: ComparedTrial[];
}

/**
 * Runs scenarios one after the other, without single changes, and keeps of them what a comparison needs.
 *
 * in: given, scenarios with their weather; options
 * out: runs, and trials for `comparisonOf`
 * throws: as `trialsOf`; the reason of the signal where it ends the work, for half of a comparison says nothing
 */
export async function comparedRuns(
  given: readonly { scenario: Scenario; weather: WeatherRecord | undefined }[],
  { signal, onProgress }: WorkOptions = {},
): Promise<ComparedRuns> {
  const all = sum(given, ({ scenario }) => trialCount(scenario));
  const runs: RunResult[] = [];
  const compared: ComparedTrial[] = [];
  for (const { scenario, weather } of given) {
    const compare = trialComparer(scenario, given[0]!.scenario);
    let trials: Trial[] = [];
    const take = (trial: HourlyTrial) => {
      compared.push(compare(trial));
      trials = lettingHoursGo([...trials, trial]);
      onProgress?.(compared.length, all);
    };
    await eachTurn(trialsOf(scenario, weather, { withChanges: false }), take, signal);
    signal?.throwIfAborted();
    runs.push(runOf(scenario, weather, trials));
  }
  return { runs, trials: compared };
}

/**
 * The same as `compareRuns`, of trials that were compared one after the other, so that their hours need not be kept.
 *
 * in: runs; trials of all of them, in their order, as `trialComparer` gives them; by
 */
export function comparisonOf(
  runs: readonly RunResult[],
  trials: ComparedTrial[],
  by: ComparedBy,
): Comparison {
  distinctNames(runs.map((run) => run.scenario));
  const southern = isSouthern(runs[0]!.scenario);
  const months = seasonMonths(southern);
  const ran = runs.flatMap((run) => run.trials);
  const spots = runs.flatMap((run) => compareSpots(run, trials, months));
  return {
    by,
    scenarios: runs.map(comparedScenario),
    southern,
    ...scenarioDifferences(runs),
    months,
    axes: axesOf(spots, trials),
    spots,
    trials,
    decisive: decisiveTrials({ trials: ran }).map((trial) => ran.indexOf(trial)),
    tables: tablesOf(trials, by),
    cautions: runs[0]!.cautions,
  };
}

/**
 * Makes of each trial of a scenario what stands in a comparison.
 *
 * in: scenario, of the trials; first, that of the first run of the comparison: its season orders the months of all
 */
function trialComparer(scenario: Scenario, first: Scenario): (trial: HourlyTrial) => ComparedTrial {
  const months = seasonMonths(isSouthern(first));
  return (trial) => compareTrial(trial, scenario, months);
}

function isSouthern({ site }: Scenario): boolean {
  return site.latitude_deg < 0;
}

function comparedScenario({ scenario, weather }: RunResult): ComparedScenario {
  const { name, file, sha256, seed, site, promise, questions } = scenario;
  const { latitude_deg, longitude_deg, timeZone } = site;
  return { name, file, sha256, seed, latitude_deg, longitude_deg, timeZone, promise, questions, weather };
}

/** A table for each lamp (by spot) or each spot (by lamp); things of the same name in several scenarios share one. */
function tablesOf(trials: readonly ComparedTrial[], by: ComparedBy): ComparedTable[] {
  const tables = new Map<string, number[]>();
  trials.forEach((trial, k) => {
    const name = by === 'spot' ? trial.lamp : trial.spot;
    tables.set(name, [...(tables.get(name) ?? []), k]);
  });
  return [...tables].map(([name, places]) => ({ name, trials: places }));
}

function axesOf(spots: readonly ComparedSpot[], trials: readonly ComparedTrial[]): CommonAxes {
  const months = trials.flatMap((trial) => trial.months);
  return {
    light_Wh_m2_day:
      max(
        spots.flatMap(({ months: each }) => each.flatMap((m) => [m.lightOnCell_Wh_m2_day, m.ghi_Wh_m2_day])),
      ) ?? Number.NaN,
    failedNights_month: max(months, (month) => month.failedNights) ?? 0,
    short_h_month: max(months, (month) => month.short_h) ?? 0,
    lightGiven_lm_h_month: max(months, (month) => month.lightGiven_lm_h) ?? 0,
  };
}
