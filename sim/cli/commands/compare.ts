import { compareFigureFiles } from '../../output/figures/compareFigures.ts';
import { oddsOfRuns } from '../../output/oddsText.ts';
import { terminalCompare } from '../../output/terminalCompare.ts';
import type { Look } from '../../output/textTable.ts';
import { writeCompare } from '../../output/writeRun.ts';
import { COMPARED_BY } from '../../trial/Comparison.ts';
import { comparisonOf } from '../../trial/compareRuns.ts';
import type { Arguments } from '../Command.ts';
import { giveResult, outFolder } from '../giveResult.ts';
import { Interruption } from '../Interruption.ts';
import { EXIT, type Io } from '../Io.ts';
import { runScenarios } from '../runScenarios.ts';

/** Runs one or several scenarios and puts their spots, or their lamps, side by side. */
export async function compareCommand(args: Arguments, io: Io): Promise<number> {
  const by = args.oneOf('by', COMPARED_BY) ?? 'spot';
  const out = outFolder(args, io);
  const compared = await runScenarios(args, io);
  if (compared === undefined) {
    io.stderr('Interrupted: nothing was written.\n');
    return EXIT.interrupted;
  }
  const { runs, trials, broken } = compared;
  const comparison = comparisonOf(runs, trials, by);
  const result = {
    write: () => writeCompare(comparison, runs, out),
    figures: () => compareFigureFiles(comparison, runs),
    text: (look: Look) => oddsOfRuns(runs, look) + terminalCompare(comparison, look),
    grounds: {
      seed: runs[0]!.scenario.seed,
      scenarios: runs.map(({ scenario }) => scenario.sha256),
      weather: runs[0]!.weather.sha256,
    },
    broken,
  };
  return giveResult(result, args, io, new Interruption(io));
}
