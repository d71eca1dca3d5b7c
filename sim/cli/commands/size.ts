import { sizeFigureFiles } from '../../output/figures/designChart.ts';
import { jsonText, published } from '../../output/json.ts';
import { placesText } from '../../output/placesText.ts';
import { program } from '../../output/program.ts';
import { sizeText } from '../../output/sizeText.ts';
import type { Look } from '../../output/textTable.ts';
import { writeSizing } from '../../output/writeSizing.ts';
import type { Scenario } from '../../scenario/Scenario.ts';
import { lampPlaces } from '../../sizing/lampPlaces.ts';
import { type SizingWishes, type SpaceAnswer, sizeScenario } from '../../sizing/sizeScenario.ts';
import { loadWeather } from '../../trial/loadWeather.ts';
import type { Arguments } from '../Command.ts';
import { giveResult, outFolder, type Result } from '../giveResult.ts';
import { Interruption } from '../Interruption.ts';
import { EXIT, type Io, withProgress } from '../Io.ts';
import { LEAST_SHARE, oneWinter } from '../mustKeep.ts';
import { wholeNumber } from '../numberWithin.ts';
import type { OptionName } from '../options.ts';
import { scenarioFrom } from '../scenarioFrom.ts';
import { findWord, foundText } from '../sizeFind.ts';
import { usageMistake } from '../usageProblem.ts';
import { weatherWishes } from '../weatherWishes.ts';

/** Says which lamp to build for the promise, or which of the lamps there are goes where. */
export async function sizeCommand(args: Arguments, io: Io): Promise<number> {
  const file = args.words[0]!;
  refuseTogether(args);
  const question = findWord(args);
  const scenario = scenarioFrom(file, io);
  if (question !== undefined) {
    io.stdoutLaidOut(await foundText(question, scenario, args, io));
    return EXIT.ran;
  }
  return args.has('assign') ? placesOf(scenario, args, io) : answersOf(scenario, args, io);
}

/** What is said of the cheapest lamp, and of no other question. */
const OF_ANSWERS = ['budget', 'winters', 'lamps', 'out', 'figures'] as const satisfies OptionName[];

/** throws: USAGE where two questions are asked at once */
function refuseTogether(args: Arguments): void {
  const typed = (option: OptionName) => args.has(option) || args.text(option) !== undefined;
  const questions = (['find', 'assign'] as const).filter(typed);
  const answers = OF_ANSWERS.filter(typed);
  const ofWinters = answers.filter((option) => option === 'budget' || option === 'winters');
  const asked = questions.length > 0 ? [...questions, ...answers] : ofWinters;
  if (asked.length < 2) return;
  const both = asked.map((each) => `--${each}`).join(' and ');
  throw usageMistake(both, 'one of them', 'longnight size --help');
}

/** Most money, and most lamps, that anyone would type. */
const MOST_MONEY = 1e6;
const MOST_LAMPS = 10_000;

/** The cheapest lamp that keeps the promise in each spot, and all that can be said beside it. */
async function answersOf(scenario: Scenario, args: Arguments, io: Io): Promise<number> {
  const [lamp, spot] = [args.text('lamp'), args.text('spot')];
  const lamps = wholeNumber(args, 'lamps', 1, MOST_LAMPS);
  const wishes: SizingWishes = {
    lamp,
    spot,
    budget: args.number('budget', 0, MOST_MONEY),
    mustKeep: args.has('must-keep') ? args.number('must-keep', LEAST_SHARE, 1) : undefined,
    lamps,
  };
  const interruption = new Interruption(io);
  let result: Result | undefined;
  if (args.text('winters') === undefined)
    result = await sizedOnFile(scenario, wishes, args, io, interruption);
  else {
    const { sizedByWinters } = await import('../sizeWinters.ts');
    result = await sizedByWinters(scenario, { lamp, spot, lamps }, args, io, interruption);
  }
  if (result === undefined) {
    await interruption.end();
    io.stderr('Interrupted before any design was run: nothing was written.\n');
    return EXIT.interrupted;
  }
  return giveResult(result, args, io, interruption);
}

/** By the weather on file; no result where Ctrl-C came before any design was run. */
async function sizedOnFile(
  scenario: Scenario,
  wishes: SizingWishes,
  args: Arguments,
  io: Io,
  interruption: Interruption,
): Promise<Result | undefined> {
  const out = outFolder(args, io);
  const weather = await loadWeather(scenario, weatherWishes(args, io));
  const cache = out === undefined ? undefined : { folder: out, program: program().version };
  const sizing = await interruption.ending('design', (options) =>
    sizeScenario(scenario, weather, wishes, { ...options, cache }),
  );
  const { answers } = sizing;
  if (answers.length === 0) return undefined;
  if (wishes.mustKeep !== undefined && answers.every(ofOneWinter)) throw oneWinter(wishes.mustKeep);
  return {
    write: () => writeSizing(sizing, out),
    figures: () => sizeFigureFiles(sizing),
    text: (look: Look) => sizeText(sizing, look),
    grounds: {
      seed: scenario.seed,
      scenarios: [scenario.sha256],
      weather: weather?.origin.sha256,
    },
    broken: args.has('must-keep') && answers.some(({ cheapest }) => cheapest === undefined),
  };
}

function ofOneWinter({ sized, present }: SpaceAnswer): boolean {
  return [...sized, ...(present === undefined ? [] : [present])].every(({ winters }) => winters <= 1);
}

/** Which of the scenario's lamps goes into which of its spots. */
async function placesOf(scenario: Scenario, args: Arguments, io: Io): Promise<number> {
  const weather = await loadWeather(scenario, weatherWishes(args, io));
  const places = await withProgress(io, 'trial', (show) => lampPlaces(scenario, weather, show));
  if (args.has('json')) io.stdout(jsonText(program(), { assign: published(places) }));
  else io.stdoutLaidOut((look) => placesText(places, scenario, weather, look));
  const broken = places.kept < places.places.length;
  return args.has('must-keep') && broken ? EXIT.promiseBroken : EXIT.ran;
}
