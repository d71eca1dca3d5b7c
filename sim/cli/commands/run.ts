import { runFigureFiles } from '../../output/figures/runFigures.ts';
import { terminalRun } from '../../output/terminalRun.ts';
import { writeRun } from '../../output/writeRun.ts';
import { spotSkies } from '../../trial/spotSkies.ts';
import type { RunResult } from '../../trial/Trial.ts';
import type { Arguments } from '../Command.ts';
import { giveResult } from '../giveResult.ts';
import { type Io, withProgress } from '../Io.ts';
import { runScenarios } from '../runScenarios.ts';

/** Runs every lamp of a scenario in every spot, writes the files and says the verdict. */
export async function runCommand(args: Arguments, io: Io): Promise<number> {
  const [plain] = await runScenarios(args, io, true);
  const run = args.has('spread') ? await sampled(plain!, io) : plain!;
  const skies = spotSkies(run);
  const result = {
    write: (out: string) => {
      const { files, summary } = writeRun(run, { out, hours: args.has('hours'), skies });
      return { folder: run.scenario.name, files, json: summary };
    },
    figures: () => runFigureFiles(run, skies),
    text: (colour: boolean) => terminalRun(run, colour),
    broken: run.trials.some((trial) => trial.statistics.verdict === 'broken'),
  };
  return giveResult(result, args, io);
}

/** The run again over what the readings of its lamps leave open. */
async function sampled(run: RunResult, io: Io): Promise<RunResult> {
  const { spread } = await import('../../trial/spread.ts');
  return withProgress(io, 'sample', (show) => spread(run, { onSample: show }));
}
