import { fixed } from '../common/csvText.ts';
import type { ShoppingLine } from '../sizing/shoppingList.ts';
import type { Batch, Sizing, SpaceAnswer } from '../sizing/sizeScenario.ts';
import { frontRows, frontTable, frontTitle } from './frontTable.ts';
import { buyWords, shoppingTitle } from './shoppingWords.ts';
import { sizeHead } from './sizeHead.ts';
import { answerWords, countSentence } from './sizeWords.ts';
import { type Look, type Paint, paint, type TextColumn, textTable } from './textTable.ts';
import { CAUTION_LINES } from './words.ts';

/** What is left to --details. */
const MORE =
  'With --details: the smallest change, what more money buys, two lamps or one, how many designs were run.';

/** Rows of the table of designs. */
const MOST_ROWS = 10;

/**
 * What to build, for people: an answer a spot, a table of designs, the shopping list where a batch is asked for, how many
 * designs there were.
 *
 * in: sizing; look, of the terminal
 * out: text, ending in a line break
 */
export function sizeText(sizing: Sizing, look: Look = {}): string {
  const {
    scenario,
    weather,
    answers,
    wishes: { mustKeep },
  } = sizing;
  const style = paint(look);
  const shared = sharedFlags(answers);
  const share = mustKeep === undefined ? '' : ` in ${fixed(100 * mustKeep, 0)} percent of winters`;
  const asked = `the cheapest lamp that keeps the promise${share}, from ${answers[0]!.space.present.name}`;
  const lines = [
    ...sizeHead(scenario, weather, asked, style),
    ...answers.flatMap((answer) => ['', ...answerLines(answer, sizing, shared, style)]),
    ...shared.flatMap((flag) => style.wrap(`! Every spot: ${flag}`, 0, 2)),
    '',
    ...tableLines(sizing, style),
    ...sizing.batches.flatMap((batch) => ['', ...shoppingLines(batch, scenario.currency, style)]),
    '',
    ...(style.details
      ? answers.flatMap((answer) => style.wrap(countSentence(answer, answer.designs.fromCache), 0, 2))
      : style.wrap(MORE)),
    ...CAUTION_LINES.flatMap((line) => style.wrap(line)).map(style.middling),
  ];
  return `${lines.join('\n')}\n`;
}

function answerLines(answer: SpaceAnswer, sizing: Sizing, shared: readonly string[], style: Paint): string[] {
  const { headline, kept, sentences, others, flags } = answerWords(answer, sizing);
  return [
    ...style.wrap(headline).map(kept ? style.good : style.bad),
    ...[...sentences, ...(style.details ? others : [])].flatMap((sentence) => style.wrap(sentence, 2, 4)),
    ...flags.filter((flag) => !shared.includes(flag)).flatMap((flag) => style.wrap(`! ${flag}`, 2, 4)),
  ];
}

/** What is to be seen of every recommended lamp, where there are several. */
function sharedFlags(answers: readonly SpaceAnswer[]): readonly string[] {
  const [first = [], ...others] = answers.map(({ cheapest, nearest }) => (cheapest ?? nearest)?.flags ?? []);
  return others.length === 0 ? [] : first.filter((flag) => others.every((flags) => flags.includes(flag)));
}

function tableLines(sizing: Sizing, style: Paint): string[] {
  const rows = frontRows(sizing.answers, MOST_ROWS);
  if (rows.length === 0) return [];
  const { lines, left } = frontTable(rows, sizing, style);
  const where = style.filed ? 'see designs.csv' : 'no room for it here';
  const more = left.length === 0 ? [] : style.wrap(`${left.join(', ')}: ${where}`, 2);
  return [style.strong(frontTitle(rows)), ...lines, ...more];
}

/** The shopping list of a batch. */
export function shoppingLines(batch: Batch, currency: string | undefined, style: Paint): string[] {
  const columns: TextColumn<ShoppingLine>[] = [
    { heading: ['', ''], cell: ({ name }) => name },
    { heading: ['', 'needed'], cell: ({ needed }) => String(needed) },
    {
      heading: ['from', 'drawer'],
      cell: ({ fromDrawer }) => (fromDrawer === 0 ? '-' : String(fromDrawer)),
    },
    { heading: ['', 'to buy'], cell: buyWords },
    { heading: ['left', 'over'], cell: ({ leftOver }) => (leftOver === 0 ? '-' : String(leftOver)) },
    {
      heading: ['', currency ?? 'money'],
      cell: ({ money }) => (money === undefined ? 'no price' : fixed(money, 2)),
    },
  ];
  return [
    style.strong(shoppingTitle(batch, currency)),
    ...textTable(columns, batch.list.lines, style.columns),
  ];
}
