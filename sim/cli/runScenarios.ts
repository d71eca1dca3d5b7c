import type { InputProblem } from '../common/InputProblem.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import type { ComparedTrial } from '../trial/Comparison.ts';
import { trialComparer } from '../trial/compareRuns.ts';
import { lettingHoursGo } from '../trial/decisiveTrials.ts';
import { runOf, trialCount, trialsOf } from '../trial/runAll.ts';
import { distinctNames } from '../trial/scenarioDifferences.ts';
import type { RunResult, Trial } from '../trial/Trial.ts';
import type { WinterBasis } from '../trial/WinterMaker.ts';
import type { Arguments } from './Command.ts';
import { type Io, withProgress } from './Io.ts';
import { madeChance, mustKeep } from './mustKeep.ts';
import { scenarioFrom } from './scenarioFrom.ts';
import { usageMistake } from './usageProblem.ts';
import { type WeatherAndOdds, weatherAndOdds } from './weatherAndOdds.ts';

/** Runs without hours, and what was compared of them. */
interface ComparedRuns {
  runs: RunResult[];
  /** Of all runs, in their order. */
  trials: ComparedTrial[];
  /** Whether one of them falls short of what `--must-keep` asks for. */
  broken: boolean;
}

/**
 * Runs the scenarios that were typed, each through its weather, and counts the trials on stderr. Ctrl-C ends it, and the
 * program: half of a comparison says nothing.
 *
 * in: args; io
 * out: a run a scenario, without single changes, with the odds where `--winters` asks for them; undefined where Ctrl-C
 *   came while winters were made
 * throws: InputProblem; USAGE where odds of scenarios of different weather are asked for
 */
export async function runScenarios(args: Arguments, io: Io): Promise<ComparedRuns | undefined> {
  const scenarios = args.words.map((file) => scenarioFrom(file, io));
  distinctNames(scenarios);
  const wanted = mustKeep(args);
  let broken = false;
  const all = scenarios.reduce((sum, scenario) => sum + trialCount(scenario), 0);
  const given = await weatherOfAll(scenarios, args, io);
  if (given === undefined) return undefined;
  return withProgress(io, 'trial', async (show) => {
    const runs: RunResult[] = [];
    const compared: ComparedTrial[] = [];
    for (const [k, scenario] of scenarios.entries()) {
      const { weather, odds } = given[k]!;
      const compare = trialComparer(scenario, scenarios[0]!);
      let trials: Trial[] = [];
      for (const trial of trialsOf(scenario, weather, { withChanges: false })) {
        broken = wanted?.breaks(trial.statistics, madeChance(odds, trial)) === true || broken;
        compared.push(compare(trial));
        trials = lettingHoursGo([...trials, trial]);
        show(compared.length, all);
      }
      runs.push({ ...runOf(scenario, weather, trials), odds });
    }
    return { runs, trials: compared, broken };
  });
}

/** The weather of each scenario, and its odds: all made of the same winters, so that lamps are held against each other fairly. */
async function weatherOfAll(
  scenarios: readonly Scenario[],
  args: Arguments,
  io: Io,
): Promise<WeatherAndOdds[] | undefined> {
  const all: WeatherAndOdds[] = [];
  for (const scenario of scenarios) {
    const given = await weatherAndOdds(scenario, args, io);
    if (given.interrupted) return undefined;
    all.push(given);
    const [first] = all;
    if (given.basis !== undefined && first?.basis !== undefined && !makeAlike(given.basis, first.basis))
      throw twoClimates(scenarios[0]!, scenario);
  }
  return all;
}

/** Whether the winters made from two are the same. */
function makeAlike(one: WinterBasis, other: WinterBasis): boolean {
  const restsOn = (basis: WinterBasis) => {
    const { latitude_deg, longitude_deg, elevation_m } = basis.site;
    const from = 'climate' in basis ? basis.climate : basis.record.origin.sha256;
    return JSON.stringify([basis.seed, latitude_deg, longitude_deg, elevation_m, from]);
  };
  return restsOn(one) === restsOn(other);
}

function twoClimates(first: Scenario, other: Scenario): InputProblem {
  return usageMistake(
    `--winters with ${first.file} and ${other.file}, whose weather, place or seed is not the same`,
    'scenarios of one place, one weather and one seed: winters of two climates are not held against each other',
    'compare each by itself, or leave --winters away',
  );
}
