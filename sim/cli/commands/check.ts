import { InputProblem, type Problem } from '../../common/InputProblem.ts';
import { benchSheetText } from '../../output/benchSheetText.ts';
import { describeScenario, scenarioData } from '../../output/describeScenario.ts';
import { jsonText, plainJson } from '../../output/json.ts';
import { program } from '../../output/program.ts';
import { sensitivityText } from '../../output/sensitivityText.ts';
import { spotSurveyText } from '../../output/spotSurveyText.ts';
import { type Look, TERMINAL_COLUMNS } from '../../output/textTable.ts';
import type { Scenario } from '../../scenario/Scenario.ts';
import { scenarioJsonSchema } from '../../scenario/scenarioJsonSchema.ts';
import { benchSheet } from '../../trial/benchSheet.ts';
import { loadWeather } from '../../trial/loadWeather.ts';
import { type PartEnds, partEnds } from '../../trial/partEnds.ts';
import { sensitivity } from '../../trial/sensitivity.ts';
import { spotSurvey } from '../../trial/spotSurvey.ts';
import type { Arguments } from '../Command.ts';
import { EXIT, type Io, withProgress } from '../Io.ts';
import type { OptionName } from '../options.ts';
import { scenarioFrom } from '../scenarioFrom.ts';
import { trialNames } from '../trialNames.ts';
import { usageMistake } from '../usageProblem.ts';

/** Checks scenarios and prints each with every default filled in, where each value came from and what hangs on it. */
export async function checkCommand(args: Arguments, io: Io): Promise<number> {
  const way = wayOf(args);
  const { words } = args;
  if (way === 'schema') {
    if (words.length > 0)
      throw usageMistake(`--schema and "${words[0]}"`, 'one of them', 'longnight check --schema');
    io.stdout(plainJson(scenarioJsonSchema()));
    return EXIT.ran;
  }
  if (words.length === 0)
    throw usageMistake('nothing after check', 'SCENARIO or --schema', 'longnight check --help');
  const answers: Answer[] = [];
  const problems: Problem[] = [];
  for (const file of words) {
    try {
      answers.push(await answerOf(scenarioFrom(file, io), way, args, io));
    } catch (error) {
      if (!(error instanceof InputProblem)) throw error;
      problems.push(...error.problems);
    }
  }
  // Of those that are sound all is said, whatever is wrong with others.
  if (!args.has('json')) io.stdoutLaidOut((look) => answers.map(({ text }) => text(look)).join('\n'));
  else if (problems.length === 0) io.stdout(jsonText(program(), together(answers)));
  if (problems.length > 0) throw new InputProblem(problems);
  return EXIT.ran;
}

/** What is said of a scenario. */
interface Answer {
  data: object;
  text: (look: Look) => string;
}

/** One as it is, several in a list. */
function together(answers: readonly Answer[]): object {
  const data = answers.map((answer) => answer.data);
  return data.length === 1 ? data[0]! : { scenarios: data };
}

const WAYS = ['schema', 'bench', 'sensitivity'] as const satisfies OptionName[];

function wayOf(args: Arguments): (typeof WAYS)[number] | undefined {
  const ways = WAYS.filter((way) => args.has(way));
  if (ways.length > 1) {
    const both = ways.map((each) => `--${each}`).join(' and ');
    throw usageMistake(both, 'one of them', 'longnight check SCENARIO --bench');
  }
  const [way] = ways;
  if (way !== 'sensitivity' && (args.text('spot') ?? args.text('lamp')) !== undefined) {
    throw usageMistake('--lamp or --spot without --sensitivity', 'them beside it', 'longnight check --help');
  }
  return way;
}

async function answerOf(
  scenario: Scenario,
  way: ReturnType<typeof wayOf>,
  args: Arguments,
  io: Io,
): Promise<Answer> {
  if (way === 'sensitivity') return sensitivityOf(scenario, args, io);
  if (way === 'bench') {
    const lamps = scenario.lamps.map((lamp) => benchSheet(lamp, scenario.spots, scenario.currency));
    const survey = spotSurvey(scenario);
    return {
      data: { scenario: scenario.name, lamps, survey },
      text: (look) =>
        [benchSheetText(lamps, look), spotSurveyText(survey, look)].filter((text) => text !== '').join('\n'),
    };
  }
  const verdicts = await verdictsOf(scenario);
  return {
    data: scenarioData(scenario, verdicts),
    text: ({ columns = TERMINAL_COLUMNS }) => describeScenario(scenario, { verdicts, width: columns }),
  };
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

async function sensitivityOf(scenario: Scenario, args: Arguments, io: Io): Promise<Answer> {
  const names = trialNames(args, scenario);
  const weather = await loadWeather(scenario);
  const found = await withProgress(io, 'assumption', (show) =>
    sensitivity(scenario, weather, { ...names, onTried: show }),
  );
  return { data: found, text: (look) => sensitivityText(found, look) };
}
