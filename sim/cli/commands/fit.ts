import { fitScenario } from '../../fitting/fitScenario.ts';
import { fitText } from '../../output/fitText.ts';
import { loadScenario } from '../../scenario/loadScenario.ts';
import type { Command } from '../Command.ts';
import { EXIT } from '../exitCodes.ts';
import { pathFrom } from '../pathFrom.ts';

/** Turns bench readings into model parameters with their uncertainty. */
export const fitCommand: Command = {
  name: 'fit',
  words: ['SCENARIO'],
  about: 'bench readings to parameters with intervals, and what to read next',
  examples: [
    ['longnight fit scenarios/bench-readings.yaml', 'what do the readings of the parts say?'],
    ['longnight fit garden.yaml --json', 'the same as JSON'],
  ],
  options: ['json'],
  run: async (args, io) => {
    const file = args.words[0]!;
    const report = fitScenario(loadScenario(pathFrom(io.cwd, file), file));
    io.stdout(args.has('json') ? `${JSON.stringify(report, null, 2)}\n` : fitText(report));
    return EXIT.ran;
  },
};
