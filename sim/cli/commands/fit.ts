import { fitDischarge } from '../../fitting/fitDischarge.ts';
import { fitLog } from '../../fitting/fitLog.ts';
import { fitScenario } from '../../fitting/fitScenario.ts';
import { scenarioWithReadings } from '../../fitting/scenarioWithReadings.ts';
import { dischargeText } from '../../output/dischargeText.ts';
import { fitText } from '../../output/fitText.ts';
import { jsonText } from '../../output/json.ts';
import { logFitText } from '../../output/logFitText.ts';
import { program } from '../../output/program.ts';
import type { Look } from '../../output/textTable.ts';
import { readTextFile } from '../../tables/TableSource.ts';
import type { Arguments } from '../Command.ts';
import { EXIT, type Io, pathFrom } from '../Io.ts';
import type { OptionName } from '../options.ts';
import { scenarioFrom } from '../scenarioFrom.ts';
import { usageMistake } from '../usageProblem.ts';

/** Turns bench readings, the log or the diary of a lamp in service, or a discharge curve, into model parameters with their uncertainty. */
export async function fitCommand(args: Arguments, io: Io): Promise<number> {
  const answer = await answerOf(args, io);
  io.stdoutLaidOut((look) => answer({ ...look, details: args.has('details') }));
  return EXIT.ran;
}

async function answerOf(args: Arguments, io: Io): Promise<(look: Look) => string> {
  const [file] = args.words;
  const curve = args.text('discharge');
  if (curve !== undefined) return dischargeOf(curve, args, io);
  const facts = FACTS.filter((fact) => args.text(fact) !== undefined);
  if (facts.length > 0) {
    const both = facts.map((fact) => `--${fact}`).join(', ');
    throw usageMistake(
      `${both} without --discharge`,
      'them beside a discharge curve',
      'longnight fit --help',
    );
  }
  if (file === undefined)
    throw usageMistake('nothing after fit', 'SCENARIO or --discharge FILE', 'longnight fit --help');
  const logs = args.all('log');
  const [lamp, spot] = [args.text('lamp'), args.text('spot')];
  const readings = args.text('readings');
  if (logs.length === 0 && (spot ?? (readings === undefined ? lamp : undefined)) !== undefined) {
    throw usageMistake('--lamp or --spot without --log', 'them beside a log', 'longnight fit --help');
  }
  if (logs.length > 0 && readings !== undefined) {
    throw usageMistake('--readings and --log', 'one of them', 'longnight fit --help');
  }
  const scenario = scenarioFrom(file, io);
  if (logs.length === 0) {
    const read =
      readings === undefined
        ? scenario
        : scenarioWithReadings(scenario, readTextFile(pathFrom(io, readings), readings), lamp);
    const report = fitScenario(read);
    return (look) => (args.has('json') ? jsonText(program(), report) : fitText(report, look));
  }
  const files = logs.map((name) => readTextFile(pathFrom(io, name), name));
  const report = await fitLog(scenario, files, { lamp, spot });
  return (look) => (args.has('json') ? jsonText(program(), report) : logFitText(report, look));
}

/** What is said beside a discharge curve. */
const FACTS = ['rated', 'current', 'ohms'] as const satisfies OptionName[];

async function dischargeOf(curve: string, args: Arguments, io: Io): Promise<(look: Look) => string> {
  const others = (['readings', 'log', 'lamp', 'spot'] as const).filter(
    (each) => args.text(each) !== undefined,
  );
  const beside = [...args.words.map((word) => `"${word}"`), ...others.map((each) => `--${each}`)];
  if (beside.length > 0) {
    const expected = 'the curve alone: it needs no scenario';
    throw usageMistake(
      `--discharge and ${beside.join(', ')}`,
      expected,
      `longnight fit --discharge ${curve}`,
    );
  }
  const [current_A, load_ohm] = [args.number('current', 1e-6, 1000), args.number('ohms', 1e-3, 1e6)];
  if (current_A !== undefined && load_ohm !== undefined)
    throw usageMistake('--current and --ohms', 'one of them', 'longnight fit --help');
  const rated_V = args.number('rated', 0.1, 100);
  const said = { rated_V, current_A, load_ohm };
  const report = await fitDischarge(readTextFile(pathFrom(io, curve), curve), said);
  return (look) => (args.has('json') ? jsonText(program(), report) : dischargeText(report, look));
}
