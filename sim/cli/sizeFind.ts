import { nearestWord } from '../common/hints.ts';
import { findText } from '../output/findText.ts';
import { jsonText, published } from '../output/json.ts';
import { program } from '../output/program.ts';
import type { Look } from '../output/textTable.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import { FIND_WORDS, type FindWord } from '../sizing/find/Found.ts';
import { find } from '../sizing/find/find.ts';
import { loadWeather } from '../trial/loadWeather.ts';
import type { Arguments } from './Command.ts';
import { type Io, withProgress } from './Io.ts';
import { trialNames } from './trialNames.ts';
import { usageMistake } from './usageProblem.ts';
import { weatherWishes } from './weatherWishes.ts';

/**
 * The question of `--find`.
 *
 * out: undefined where it was not typed
 * throws: USAGE where it is none
 */
export function findWord(args: Arguments): FindWord | undefined {
  const typed = args.text('find');
  const word = FIND_WORDS.find((each) => each === typed);
  if (typed !== undefined && word === undefined) {
    const near = nearestWord(typed, FIND_WORDS) ?? FIND_WORDS[0];
    throw usageMistake(`--find ${typed}`, `one of ${FIND_WORDS.join(', ')}`, `--find ${near}`);
  }
  if (args.text('lit-hours') !== undefined && word !== 'inductor')
    throw usageMistake('--lit-hours without --find inductor', 'it beside that', '--find inductor');
  return word;
}

/** What `--find` finds of a scenario, as text or JSON. */
export async function foundText(
  word: FindWord,
  scenario: Scenario,
  args: Arguments,
  io: Io,
): Promise<(look: Look) => string> {
  const options = {
    ...trialNames(args, scenario),
    lit_h: args.number('lit-hours', 0.1, 24),
  };
  const weather = await loadWeather(scenario, weatherWishes(args, io));
  const found = await withProgress(io, 'trial', (show) =>
    find(word, scenario, weather, { ...options, onFound: show }),
  );
  return (look) =>
    args.has('json')
      ? jsonText(program(), { scenario: scenario.name, found: published(found) })
      : findText(found, look);
}
