import { runFigureFiles } from '../../output/figures/runFigures.ts';
import { terminalRun } from '../../output/terminalRun.ts';
import { writeRun } from '../../output/writeRun.ts';
import { spotSkies } from '../../trial/spotSkies.ts';
import { spread } from '../../trial/spread.ts';
import type { Command } from '../Command.ts';
import { giveResult, RESULT_OPTIONS } from '../giveResult.ts';
import { withProgress } from '../Io.ts';
import { runScenarios, WISH_OPTIONS } from '../runScenarios.ts';

/** Runs every lamp of a scenario in every spot, writes the files and says the verdict. */
export const runCommand: Command = {
  name: 'run',
  words: ['SCENARIO'],
  about: 'run every lamp in every spot through the weather; which nights go dark, and why',
  examples: [
    ['longnight run scenarios/invented-garden.yaml', 'the verdict; files in out/invented-garden/'],
    ['longnight run garden.yaml --weather 1996.csv --out results', 'another year, results elsewhere'],
    ['longnight run garden.yaml --figures pictures', 'the pictures of the page as SVG files too'],
    [
      'longnight run scenarios/bench-readings.yaml --spread',
      'does the verdict stand, as far as the bench says',
    ],
    ['longnight run garden.yaml --must-keep --json > verdict.json', 'for scripts: exit code 3 when broken'],
  ],
  options: [...RESULT_OPTIONS, 'hours', 'weather', ...WISH_OPTIONS, 'spread'],
  run: async (args, io) => {
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
  },
};
