import { runFigureFiles } from '../../output/figures/runFigures.ts';
import { terminalRun } from '../../output/terminalRun.ts';
import { writeRun } from '../../output/writeRun.ts';
import { loadScenario } from '../../scenario/loadScenario.ts';
import type { Scenario } from '../../scenario/Scenario.ts';
import { loadWeather } from '../../trial/loadWeather.ts';
import { runOf, trialCount, trialsOf } from '../../trial/runAll.ts';
import { spotSkies } from '../../trial/spotSkies.ts';
import type { Trial } from '../../trial/Trial.ts';
import type { Arguments } from '../Command.ts';
import { giveResult } from '../giveResult.ts';
import { Interruption } from '../Interruption.ts';
import { EXIT, type Io, pathFrom, withProgress } from '../Io.ts';
import { weatherWishes } from '../runScenarios.ts';

/** Runs every lamp of a scenario in every spot, writes the files and says the verdict; what is complete where Ctrl-C comes. */
export async function runCommand(args: Arguments, io: Io): Promise<number> {
  const file = args.words[0]!;
  const scenario = loadScenario(pathFrom(io, file), file);
  const weather = await loadWeather(scenario, weatherWishes(args, io));
  const sampled = args.has('spread') ? await sampling(scenario) : undefined;
  const interruption = new Interruption(io);
  const trials: Trial[] = [];
  await withProgress(io, 'trial', (show) =>
    interruption.breakable(() => {
      for (const trial of trialsOf(scenario, weather)) {
        trials.push(sampled?.(trial) ?? trial);
        show(trials.length, trialCount(scenario));
      }
    }),
  );
  if (trials.length === 0) {
    await interruption.end();
    io.stderr('Interrupted before any trial was complete: nothing was written.\n');
    return EXIT.interrupted;
  }
  const run = runOf(scenario, weather, trials);
  const skies = spotSkies(run);
  const result = {
    write: (out: string) => {
      const { name, files, summary } = writeRun(run, { out, hours: args.has('hours'), skies });
      return { folder: name, files, json: summary };
    },
    figures: () => runFigureFiles(run, skies),
    text: (colour: boolean) => terminalRun(run, colour),
    broken: run.trials.some((trial) => trial.statistics.verdict === 'broken'),
  };
  return giveResult(result, args, io, interruption);
}

async function sampling(scenario: Scenario): Promise<(trial: Trial) => Trial> {
  const { spreader } = await import('../../trial/spread.ts');
  return spreader(scenario);
}
