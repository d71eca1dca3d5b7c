import { fitLog } from '../../fitting/fitLog.ts';
import { fitScenario } from '../../fitting/fitScenario.ts';
import { scenarioWithReadings } from '../../fitting/scenarioWithReadings.ts';
import { fitText, logFitText } from '../../output/fitText.ts';
import { loadScenario } from '../../scenario/loadScenario.ts';
import { readTextFile } from '../../tables/TableSource.ts';
import type { Arguments } from '../Command.ts';
import { jsonText } from '../giveResult.ts';
import { EXIT, type Io, pathFrom } from '../Io.ts';
import { usageMistake } from '../usageProblem.ts';

/** Turns bench readings, or the log of a lamp in service, into model parameters with their uncertainty. */
export async function fitCommand(args: Arguments, io: Io): Promise<number> {
  io.stdout(await textOf(args, io));
  return EXIT.ran;
}

async function textOf(args: Arguments, io: Io): Promise<string> {
  const file = args.words[0]!;
  const log = args.text('log');
  const [lamp, spot] = [args.text('lamp'), args.text('spot')];
  const readings = args.text('readings');
  if (log === undefined && (spot ?? (readings === undefined ? lamp : undefined)) !== undefined) {
    throw usageMistake('--lamp or --spot without --log', 'them beside a log', 'longnight fit --help');
  }
  if (log !== undefined && readings !== undefined) {
    throw usageMistake('--readings and --log', 'one of them', 'longnight fit --help');
  }
  const scenario = loadScenario(pathFrom(io, file), file);
  if (log === undefined) {
    const read =
      readings === undefined
        ? scenario
        : scenarioWithReadings(scenario, readTextFile(pathFrom(io, readings), readings), lamp);
    const report = fitScenario(read);
    return args.has('json') ? jsonText(report) : fitText(report);
  }
  const report = await fitLog(scenario, readTextFile(pathFrom(io, log), log), { lamp, spot });
  return args.has('json') ? jsonText(report) : logFitText(report);
}
