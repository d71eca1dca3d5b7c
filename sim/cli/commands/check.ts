import { benchSheetText } from '../../output/benchSheetText.ts';
import { describeScenario, scenarioData } from '../../output/describeScenario.ts';
import { loadScenario } from '../../scenario/loadScenario.ts';
import { scenarioJsonSchema } from '../../scenario/scenarioJsonSchema.ts';
import { benchSheet } from '../../trial/benchSheet.ts';
import type { Arguments } from '../Command.ts';
import { jsonText } from '../giveResult.ts';
import { EXIT, type Io, pathFrom } from '../Io.ts';
import { usageMistake } from '../usageProblem.ts';

/** Checks a scenario and prints it with every default filled in and where each value came from. */
export async function checkCommand(args: Arguments, io: Io): Promise<number> {
  io.stdout(textOf(args, io));
  return EXIT.ran;
}

function textOf(args: Arguments, io: Io): string {
  const [file] = args.words;
  if (args.has('schema')) {
    if (args.has('bench'))
      throw usageMistake('--schema and --bench', 'one of them', 'longnight check SCENARIO --bench');
    if (file === undefined) return jsonText(scenarioJsonSchema());
    throw usageMistake(`--schema and "${file}"`, 'one of them', 'longnight check --schema');
  }
  if (file === undefined)
    throw usageMistake('nothing after check', 'SCENARIO or --schema', 'longnight check --help');
  const scenario = loadScenario(pathFrom(io, file), file);
  if (args.has('bench')) {
    const sheets = scenario.lamps.map(benchSheet);
    return args.has('json')
      ? jsonText({ format: 1, scenario: scenario.name, lamps: sheets })
      : benchSheetText(sheets);
  }
  return args.has('json') ? jsonText(scenarioData(scenario)) : describeScenario(scenario);
}
