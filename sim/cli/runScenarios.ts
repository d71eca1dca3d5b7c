import { loadScenario } from '../scenario/loadScenario.ts';
import type { ComparedTrial } from '../trial/Comparison.ts';
import { trialComparer } from '../trial/compareRuns.ts';
import { lettingHoursGo } from '../trial/decisiveTrials.ts';
import { loadWeather } from '../trial/loadWeather.ts';
import { runOf, trialCount, trialsOf } from '../trial/runAll.ts';
import { distinctNames } from '../trial/scenarioDifferences.ts';
import type { RunResult, Trial } from '../trial/Trial.ts';
import type { Arguments } from './Command.ts';
import { type Io, pathFrom, withProgress } from './Io.ts';
import { weatherWishes } from './weatherWishes.ts';

/** Runs without hours, and what was compared of them. */
interface ComparedRuns {
  runs: RunResult[];
  /** Of all runs, in their order. */
  trials: ComparedTrial[];
}

/**
 * Runs the scenarios that were typed, each through its weather, and counts the trials on stderr. Ctrl-C ends it, and the
 * program: half of a comparison says nothing.
 *
 * in: args; io
 * out: a run a scenario, without single changes
 * throws: InputProblem
 */
export async function runScenarios(args: Arguments, io: Io): Promise<ComparedRuns> {
  const scenarios = args.words.map((file) => loadScenario(pathFrom(io, file), file));
  distinctNames(scenarios);
  const wishes = weatherWishes(args, io);
  const all = scenarios.reduce((sum, scenario) => sum + trialCount(scenario), 0);
  return withProgress(io, 'trial', async (show) => {
    const runs: RunResult[] = [];
    const compared: ComparedTrial[] = [];
    for (const scenario of scenarios) {
      const weather = await loadWeather(scenario, wishes);
      const compare = trialComparer(scenario, scenarios[0]!);
      let trials: Trial[] = [];
      for (const trial of trialsOf(scenario, weather, { withChanges: false })) {
        compared.push(compare(trial));
        trials = lettingHoursGo([...trials, trial]);
        show(compared.length, all);
      }
      runs.push(runOf(scenario, weather, trials));
    }
    return { runs, trials: compared };
  });
}
