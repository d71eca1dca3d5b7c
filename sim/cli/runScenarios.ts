import { setImmediate as nextTurn } from 'node:timers/promises';
import { loadScenario } from '../scenario/loadScenario.ts';
import { loadWeather, type WeatherWishes } from '../trial/loadWeather.ts';
import { runAll } from '../trial/runAll.ts';
import { distinctNames } from '../trial/scenarioDifferences.ts';
import type { RunResult } from '../trial/Trial.ts';
import type { Arguments } from './Command.ts';
import { type Io, pathFrom, withProgress } from './Io.ts';

/**
 * What the command line says of the weather.
 *
 * in: args; io
 * out: wishes for loadWeather; what was not said is not there
 * throws: USAGE for a word that is none of those an option takes
 */
export function weatherWishes(args: Arguments, io: Io): WeatherWishes {
  const file = args.text('weather');
  const said = {
    files: file === undefined ? undefined : [{ path: pathFrom(io, file), name: file }],
    zone: args.text('zone'),
    label: args.oneOf('marks', ['start', 'middle', 'end']),
    clock: args.oneOf('believe', ['sun', 'file']),
    acceptFilled: args.has('accept-filled') || undefined,
  };
  return Object.fromEntries(Object.entries(said).filter(([, value]) => value !== undefined));
}

/**
 * Runs the scenarios that were typed, each through its weather, and counts the trials on stderr.
 *
 * in: args; io; withChanges, whether failing trials are run again with single changes
 * out: a run a scenario
 * throws: InputProblem
 */
export async function runScenarios(args: Arguments, io: Io, withChanges: boolean): Promise<RunResult[]> {
  const scenarios = args.words.map((file) => loadScenario(pathFrom(io, file), file));
  distinctNames(scenarios);
  const wishes = weatherWishes(args, io);
  const all = scenarios.reduce((sum, { spots, lamps }) => sum + spots.length * lamps.length, 0);
  return withProgress(io, 'trial', async (show) => {
    const runs: RunResult[] = [];
    let before = 0;
    for (const scenario of scenarios) {
      const weather = await loadWeather(scenario, wishes);
      await nextTurn();
      const run = runAll(scenario, { weather, withChanges, onTrial: (done) => show(before + done, all) });
      before += run.trials.length;
      runs.push(run);
    }
    return runs;
  });
}
