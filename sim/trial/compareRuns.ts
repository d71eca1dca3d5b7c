import { max } from 'd3-array';
import type { Scenario } from '../scenario/Scenario.ts';
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
import { decisiveTrials } from './decisiveTrials.ts';
import { seasonMonths } from './monthlyLight.ts';
import { distinctNames, scenarioDifferences } from './scenarioDifferences.ts';
import type { HourlyTrial, RunResult } from './Trial.ts';

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

/**
 * The same, of trials that were compared one after the other, so that their hours need not be kept.
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
export function trialComparer(scenario: Scenario, first: Scenario): (trial: HourlyTrial) => ComparedTrial {
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
