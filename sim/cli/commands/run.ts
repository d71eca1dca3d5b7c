import { runFigureFiles } from '../../output/figures/runFigures.ts';
import { terminalRun } from '../../output/terminalRun.ts';
import { writeRun } from '../../output/writeRun.ts';
import { spotSkies } from '../../trial/spotSkies.ts';
import { spread } from '../../trial/spread.ts';
import type { Arguments } from '../Command.ts';
import { giveResult } from '../giveResult.ts';
import { type Io, withProgress } from '../Io.ts';
import { runScenarios } from '../runScenarios.ts';

/** Runs every lamp of a scenario in every spot, writes the files and says the verdict. */
export async function runCommand(args: Arguments, io: Io): Promise<number> {
  const [plain] = await runScenarios(args, io, true);
  const run = args.has('spread')
    ? await withProgress(io, 'sample', (show) => spread(plain!, { onSample: show }))
    : plain!;
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
