import { jsonText, published } from '../../output/json.ts';
import { placesText } from '../../output/placesText.ts';
import { program } from '../../output/program.ts';
import { loadScenario } from '../../scenario/loadScenario.ts';
import type { Scenario } from '../../scenario/Scenario.ts';
import { lampPlaces } from '../../sizing/lampPlaces.ts';
import { loadWeather } from '../../trial/loadWeather.ts';
import type { Arguments } from '../Command.ts';
import { EXIT, type Io, pathFrom, withProgress } from '../Io.ts';
import { findWord, foundText } from '../sizeFind.ts';
import { weatherWishes } from '../weatherWishes.ts';

/** Says which lamp to build for the promise, or which of the lamps there are goes where. */
export async function sizeCommand(args: Arguments, io: Io): Promise<number> {
  const file = args.words[0]!;
  const question = findWord(args);
  const scenario = loadScenario(pathFrom(io, file), file);
  if (question !== undefined) {
    io.stdout(await foundText(question, scenario, args, io));
    return EXIT.ran;
  }
  return placesOf(scenario, args, io);
}

/** Which of the scenario's lamps goes into which of its spots. */
async function placesOf(scenario: Scenario, args: Arguments, io: Io): Promise<number> {
  const weather = await loadWeather(scenario, weatherWishes(args, io));
  const places = await withProgress(io, 'trial', (show) => lampPlaces(scenario, weather, show));
  if (args.has('json')) io.stdout(jsonText(program(), { assign: published(places) }));
  else io.stdoutInColour((colour) => placesText(places, scenario, weather, colour));
  const broken = places.kept < places.places.length;
  return args.has('must-keep') && broken ? EXIT.promiseBroken : EXIT.ran;
}
