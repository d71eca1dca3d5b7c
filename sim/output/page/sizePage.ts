import { fixed } from '../../common/csvText.ts';
import type { Scenario } from '../../scenario/Scenario.ts';
import type { ShoppingLine } from '../../sizing/shoppingList.ts';
import type { Batch, Sizing, SpaceAnswer } from '../../sizing/sizeScenario.ts';
import { CAUTIONS } from '../../trial/cautions.ts';
import { recordFacts } from '../../trial/runAll.ts';
import { designWords } from '../designWords.ts';
import { designChart } from '../figures/designChart.ts';
import { isolated } from '../figures/element.ts';
import { type FrontRow, frontRows, frontTitle } from '../frontTable.ts';
import { moneyWords } from '../moneyWords.ts';
import { program } from '../program.ts';
import { buyWords, shoppingTitle } from '../shoppingWords.ts';
import { answerWords, countSentence } from '../sizeWords.ts';
import { weatherWords } from '../weatherWords.ts';
import { promiseWords } from '../words.ts';
import { figurePart } from './figurePart.ts';
import { pageHead } from './pageHead.ts';
import { pageShell } from './pageShell.ts';
import {
  listMarkup,
  type MarkupColumn,
  nameMarkup,
  numberColumn,
  paragraphMarkup,
  tableMarkup,
  termsMarkup,
} from './tableMarkup.ts';

/** Rows of the table of designs of an answer. */
const MOST_ROWS = 40;

/**
 * The page of a sizing: for each spot the answer in sentences, cost against failed nights, the designs that nothing beats
 * and what to buy, in one HTML file.
 *
 * in: sizing; files, names of those written beside it
 * out: HTML text
 */
export function sizePage(sizing: Sizing, files: readonly string[]): string {
  const { scenario, weather, answers } = sizing;
  const words = weather === undefined ? '' : weatherWords(recordFacts(weather), weather.origin.file);
  const parts = answers.map((answer, k) => answerMarkup(answer, `size-${k + 1}`, sizing));
  return sizeShell(scenario, words, [...parts, groundsMarkup(sizing, files)]);
}

/** A page of what to build. in: scenario; rests, what it rests on, in words; parts of it, as markup */
export function sizeShell(scenario: Scenario, rests: string, parts: readonly string[]): string {
  const body = [
    pageHead(
      'The cheapest lamp that keeps the promise',
      [scenario.name],
      [promiseWords(scenario.promise), rests],
      [listMarkup(scenario.questions, 'flags', 'Please check')],
    ),
    '<main>',
    ...parts,
    '</main>',
  ].join('\n');
  return pageShell({ title: `${isolated(scenario.name)}: what to build`, body });
}

function answerMarkup(answer: SpaceAnswer, id: string, sizing: Sizing): string {
  const { currency } = sizing.scenario;
  const { headline, flags, kept, ...words } = answerWords(answer, sizing);
  const sentences = [...words.sentences, ...words.others];
  const batch = sizing.batches.find(({ spot }) => spot === answer.spot);
  const verdict = kept ? 'kept' : 'broken';
  return [
    `<section class="trial" id="${id}" data-verdict="${verdict}"><h2>${nameMarkup(headline)}</h2>`,
    listMarkup(sentences, 'answers'),
    listMarkup(flags, 'flags'),
    figurePart(id, designChart(id, answer.spot ?? '', answer, currency)),
    designTable(answer, currency),
    batch === undefined ? '' : shoppingTable(batch, currency),
    paragraphMarkup(countSentence(answer)),
    '</section>',
  ].join('\n');
}

function designTable(answer: SpaceAnswer, currency: string | undefined): string {
  const rows = frontRows([answer], MOST_ROWS);
  const columns: MarkupColumn<FrontRow>[] = [
    { heading: 'recommended as', cell: ({ named }) => named },
    { heading: 'what it is', cell: ({ sized }) => designWords(sized.design, answer.space) },
    numberColumn(`cost${currency === undefined ? '' : `, ${currency}`}`, ({ sized }) =>
      fixed(sized.design.price ?? Number.NaN, 2),
    ),
    numberColumn('failed nights', ({ sized }) => `${sized.failedNights} of ${sized.nights}`),
    numberColumn('short, h', ({ sized }) => fixed(sized.short_h, 1)),
    numberColumn('light, lm h a year', ({ sized }) => fixed(sized.light_lm_h, 0)),
    numberColumn('lm h for each unit of money', ({ sized }) =>
      fixed(sized.light_lm_h / (sized.design.price ?? Number.NaN), 0),
    ),
    numberColumn('least energy left in the morning, J', ({ sized }) => fixed(sized.smallestReserve_J, 0)),
  ];
  return tableMarkup(frontTitle(rows), columns, rows);
}

/** What a sizing rests on. */
type Grounds = Pick<Sizing, 'scenario' | 'weather'>;

/** The shopping list of a batch. */
export function shoppingTable(batch: Batch, currency: string | undefined): string {
  const columns: MarkupColumn<ShoppingLine>[] = [
    { heading: 'part', cell: ({ name }) => isolated(name) },
    numberColumn('needed', ({ needed }) => String(needed)),
    numberColumn('from the drawer', ({ fromDrawer }) => String(fromDrawer)),
    numberColumn('to buy', buyWords),
    numberColumn('left over', ({ leftOver }) => String(leftOver)),
    numberColumn('money', ({ money }) => (money === undefined ? 'no price' : moneyWords(money, currency))),
  ];
  return tableMarkup(shoppingTitle(batch, currency), columns, batch.list.lines);
}

/** What a sizing rests on, and what comes before building. */
export function groundsMarkup(
  { scenario, weather }: Grounds,
  files: readonly string[],
  same = 'which longnight run runs to the same nights',
): string {
  const { version, nodeMajor } = program();
  const made = `Made by longnight ${version} on Node ${nodeMajor}; ${files.join(', ')} beside this page, with a scenario of each recommended lamp, ${same}.`;
  return [
    '<section class="grounds" id="grounds"><h2>Sources and assumptions</h2>',
    paragraphMarkup(made),
    termsMarkup([
      ['scenario', `SHA-256 ${scenario.sha256}, seed ${scenario.seed}`],
      ...(weather === undefined ? [] : [['weather', `SHA-256 ${weather.origin.sha256}`] as const]),
    ]),
    `<h3 id="grounds-assumptions">Assumed</h3>${listMarkup(scenario.assumptions, 'cautions')}`,
    `<h3>Before you build</h3>${listMarkup(CAUTIONS, 'cautions')}</section>`,
  ].join('\n');
}
