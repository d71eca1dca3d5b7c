import type { InputProblem } from '../common/InputProblem.ts';
import { loadScenario } from '../scenario/loadScenario.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import type { ComparedTrial } from '../trial/Comparison.ts';
import { trialComparer } from '../trial/compareRuns.ts';
import { lettingHoursGo } from '../trial/decisiveTrials.ts';
import { loadWeather } from '../trial/loadWeather.ts';
import { runOf, trialCount, trialsOf } from '../trial/runAll.ts';
import { distinctNames } from '../trial/scenarioDifferences.ts';
import type { ScenarioOdds } from '../trial/scenarioOdds.ts';
import type { RunResult, Trial } from '../trial/Trial.ts';
import type { Arguments } from './Command.ts';
import { type Io, pathFrom, withProgress } from './Io.ts';
import { madeOdds } from './madeWinters.ts';
import { madeChance, mustKeep } from './mustKeep.ts';
import { usageMistake } from './usageProblem.ts';
import { weatherWishes } from './weatherWishes.ts';

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
  const scenarios = args.words.map((file) => loadScenario(pathFrom(io, file), file));
  distinctNames(scenarios);
  const wishes = weatherWishes(args, io);
  const wanted = mustKeep(args);
  let broken = false;
  const all = scenarios.reduce((sum, scenario) => sum + trialCount(scenario), 0);
  const odds = await oddsOfAll(scenarios, args, io);
  if (odds === 'interrupted') return undefined;
  return withProgress(io, 'trial', async (show) => {
    const runs: RunResult[] = [];
    const compared: ComparedTrial[] = [];
    for (const [k, scenario] of scenarios.entries()) {
      const weather = await loadWeather(scenario, wishes);
      const compare = trialComparer(scenario, scenarios[0]!);
      let trials: Trial[] = [];
      for (const trial of trialsOf(scenario, weather, { withChanges: false })) {
        broken = wanted?.breaks(trial.statistics, madeChance(odds[k], trial)) === true || broken;
        compared.push(compare(trial));
        trials = lettingHoursGo([...trials, trial]);
        show(compared.length, all);
      }
      runs.push({ ...runOf(scenario, weather, trials), odds: odds[k] });
    }
    return { runs, trials: compared, broken };
  });
}

/** The odds of each scenario, all made of the same winters, so that spots and lamps are held against each other fairly. */
async function oddsOfAll(
  scenarios: readonly Scenario[],
  args: Arguments,
  io: Io,
): Promise<(ScenarioOdds | undefined)[] | 'interrupted'> {
  const all: (ScenarioOdds | undefined)[] = [];
  if (args.text('winters') === undefined) return all;
  let first: string | undefined;
  for (const [k, scenario] of scenarios.entries()) {
    const weather = await loadWeather(scenario, weatherWishes(args, io));
    const file = args.words[k]!;
    const made = weather && (await madeOdds(scenario, { path: pathFrom(io, file), file }, weather, args, io));
    if (made?.interrupted) return 'interrupted';
    const digest = `${weather?.origin.sha256} ${scenario.site.latitude_deg} ${scenario.site.longitude_deg}`;
    first ??= digest;
    if (digest !== first) throw twoClimates(scenarios[0]!, scenario);
    all.push(made?.odds);
  }
  return all;
}

function twoClimates(first: Scenario, other: Scenario): InputProblem {
  return usageMistake(
    `--winters with ${first.file} and ${other.file}, whose weather or place is not the same`,
    'scenarios of one place and one weather: winters of two climates are not held against each other',
    'compare each by itself, or leave --winters away',
  );
}
