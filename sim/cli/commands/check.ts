import { InputProblem } from '../../common/InputProblem.ts';
import { benchSheetText } from '../../output/benchSheetText.ts';
import { describeScenario, scenarioData } from '../../output/describeScenario.ts';
import { sensitivityText } from '../../output/sensitivityText.ts';
import { spotSurveyText } from '../../output/spotSurveyText.ts';
import { loadScenario } from '../../scenario/loadScenario.ts';
import type { Scenario } from '../../scenario/Scenario.ts';
import { scenarioJsonSchema } from '../../scenario/scenarioJsonSchema.ts';
import { benchSheet } from '../../trial/benchSheet.ts';
import { loadWeather } from '../../trial/loadWeather.ts';
import { type PartEnds, partEnds } from '../../trial/partEnds.ts';
import { sensitivity } from '../../trial/sensitivity.ts';
import { spotSurvey } from '../../trial/spotSurvey.ts';
import type { Arguments } from '../Command.ts';
import { jsonText } from '../giveResult.ts';
import { EXIT, type Io, pathFrom, withProgress } from '../Io.ts';
import type { OptionName } from '../options.ts';
import { trialNames } from '../trialNames.ts';
import { usageMistake } from '../usageProblem.ts';

/** Checks a scenario and prints it with every default filled in, where each value came from and what hangs on it. */
export async function checkCommand(args: Arguments, io: Io): Promise<number> {
  io.stdout(await textOf(args, io));
  return EXIT.ran;
}

const WAYS = ['schema', 'bench', 'sensitivity'] as const satisfies OptionName[];

async function textOf(args: Arguments, io: Io): Promise<string> {
  const [file] = args.words;
  const ways = WAYS.filter((way) => args.has(way));
  const [way] = ways;
  if (ways.length > 1) {
    const both = ways.map((each) => `--${each}`).join(' and ');
    throw usageMistake(both, 'one of them', 'longnight check SCENARIO --bench');
  }
  if (way !== 'sensitivity' && (args.text('spot') ?? args.text('lamp')) !== undefined) {
    throw usageMistake('--lamp or --spot without --sensitivity', 'them beside it', 'longnight check --help');
  }
  if (way === 'schema') {
    if (file === undefined) return jsonText(scenarioJsonSchema());
    throw usageMistake(`--schema and "${file}"`, 'one of them', 'longnight check --schema');
  }
  if (file === undefined)
    throw usageMistake('nothing after check', 'SCENARIO or --schema', 'longnight check --help');
  const scenario = loadScenario(pathFrom(io, file), file);
  if (way === 'sensitivity') return sensitivityOf(scenario, args, io);
  if (way === 'bench') {
    const sheets = scenario.lamps.map((lamp) => benchSheet(lamp, scenario.spots, scenario.currency));
    const survey = spotSurvey(scenario);
    return args.has('json')
      ? jsonText({ format: 1, scenario: scenario.name, lamps: sheets, survey })
      : [benchSheetText(sheets), spotSurveyText(survey)].filter((text) => text !== '').join('\n');
  }
  const verdicts = await verdictsOf(scenario);
  return args.has('json')
    ? jsonText(scenarioData(scenario, verdicts))
    : describeScenario(scenario, { verdicts });
}

/** What the trials come to; what keeps them from being run, a fault of the weather, is for `run` to refuse. */
async function verdictsOf(scenario: Scenario): Promise<PartEnds[] | InputProblem> {
  try {
    return partEnds(scenario, await loadWeather(scenario));
  } catch (problem) {
    if (problem instanceof InputProblem) return problem;
    throw problem;
  }
}

async function sensitivityOf(scenario: Scenario, args: Arguments, io: Io): Promise<string> {
  const names = trialNames(args, scenario);
  const weather = await loadWeather(scenario);
  const found = await withProgress(io, 'assumption', (show) =>
    sensitivity(scenario, weather, { ...names, onTried: show }),
  );
  return args.has('json') ? jsonText({ format: 1, ...found }) : sensitivityText(found);
}
