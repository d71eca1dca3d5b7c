import { compareFigureFiles } from '../../output/figures/compareFigures.ts';
import { terminalCompare } from '../../output/terminalCompare.ts';
import { writeCompare } from '../../output/writeRun.ts';
import { COMPARED_BY } from '../../trial/Comparison.ts';
import { compareRuns } from '../../trial/compareRuns.ts';
import type { Command } from '../Command.ts';
import { giveResult, RESULT_OPTIONS } from '../giveResult.ts';
import { runScenarios, WISH_OPTIONS } from '../runScenarios.ts';

/** Runs one or several scenarios and puts their spots, or their lamps, side by side. */
export const compareCommand: Command = {
  name: 'compare',
  words: ['SCENARIO...'],
  about: 'spots or lamps side by side: light by month, nights, and what limits each spot',
  examples: [
    ['longnight compare scenarios/invented-garden.yaml', 'the north side or the open lawn?'],
    ['longnight compare garden.yaml --by lamp', 'one capacitor or two, spot by spot'],
    ['longnight compare garden.yaml --figures pictures', 'the pictures of the page as SVG files too'],
    ['longnight compare garden.yaml balcony.yaml --json', 'two scenarios, for scripts: compare.json'],
  ],
  options: [...RESULT_OPTIONS, 'by', 'weather', ...WISH_OPTIONS],
  run: async (args, io) => {
    const by = args.oneOf('by', COMPARED_BY) ?? 'spot';
    const runs = await runScenarios(args, io, false);
    const comparison = compareRuns(runs, by);
    const result = {
      write: (out: string) => writeCompare(comparison, runs, out),
      figures: () => compareFigureFiles(comparison, runs),
      text: (colour: boolean) => terminalCompare(comparison, colour),
      broken: comparison.trials.some((trial) => trial.verdict === 'broken'),
    };
    return giveResult(result, args, io);
  },
};
