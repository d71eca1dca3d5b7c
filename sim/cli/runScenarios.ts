import type { InputProblem } from '../common/InputProblem.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import { type ComparedRuns, comparedRuns } from '../trial/compareRuns.ts';
import { distinctNames } from '../trial/scenarioDifferences.ts';
import type { WinterBasis } from '../trial/WinterMaker.ts';
import type { Arguments } from './Command.ts';
import { type Io, withProgress } from './Io.ts';
import { madeChance, mustKeep } from './mustKeep.ts';
import { scenarioFrom } from './scenarioFrom.ts';
import { usageMistake } from './usageProblem.ts';
import { type WeatherAndOdds, weatherAndOdds } from './weatherAndOdds.ts';

/**
 * Runs the scenarios that were typed, each through its weather, and counts the trials on stderr. Ctrl-C ends it, and the
 * program: half of a comparison says nothing.
 *
 * in: args; io
 * out: a run a scenario, without single changes, with the odds where `--winters` asks for them, and whether one of them
 *   falls short of what `--must-keep` asks for; undefined where Ctrl-C came while winters were made
 * throws: InputProblem; USAGE where odds of scenarios of different weather are asked for
 */
export async function runScenarios(
  args: Arguments,
  io: Io,
): Promise<(ComparedRuns & { broken: boolean }) | undefined> {
  const scenarios = args.words.map((file) => scenarioFrom(file, io));
  distinctNames(scenarios);
  const wanted = mustKeep(args);
  const given = await weatherOfAll(scenarios, args, io);
  if (given === undefined) return undefined;
  const { runs, trials } = await withProgress(io, 'trial', (onProgress) =>
    comparedRuns(
      scenarios.map((scenario, k) => ({ scenario, weather: given[k]!.weather })),
      { onProgress },
    ),
  );
  const withOdds = runs.map((run, k) => ({ ...run, odds: given[k]!.odds }));
  const broken = withOdds.some(({ trials: ran, odds }) =>
    ran.some((trial) => wanted?.breaks(trial.statistics, madeChance(odds, trial)) === true),
  );
  return { runs: withOdds, trials, broken };
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
