import { fixed } from '../../common/csvText.ts';
import { overWinters } from '../../statistics/overWinters.ts';
import type { MonthStatistics, WinterStatistics } from '../../statistics/TrialStatistics.ts';
import type { WinterOdds } from '../../statistics/WinterOdds.ts';
import type { HourlyTrial } from '../../trial/Trial.ts';
import type { BlockSetting } from '../BlockSetting.ts';
import { type Column, monthCell, monthColumns } from '../columns.ts';
import { isolated, wordsMarkup } from '../figures/element.ts';
import { type TrialFigure, trialFigures } from '../figures/trialFigures.ts';
import { priceSentence } from '../moneyWords.ts';
import { nightCount, ofHundred, surety } from '../oddsWords.ts';
import { verdictWords } from '../winterSentences.ts';
import { dimAndOut, dimOrOut, plural, spokenDates } from '../words.ts';
import { figurePart } from './figurePart.ts';
import { sendBlock } from './sendBlock.ts';
import {
  foldedMarkup,
  listMarkup,
  type MarkupColumn,
  nameMarkup,
  numberColumn,
  paragraphMarkup,
  tableMarkup,
} from './tableMarkup.ts';

/** The parts of a trial's part of the page, in their order; each can be made again on its own. */
const TRIAL_BLOCKS = [
  'answer',
  'winters',
  'nights',
  'send',
  'mends',
  'capacitor',
  'fortnight',
  'brightness',
  'energy',
  'sky',
  'months',
] as const;

export type TrialBlock = (typeof TRIAL_BLOCKS)[number];

/**
 * What the page says and draws of a trial, block by block; free of all that a browser does not have.
 *
 * in: id, the trial's own; trial; setting; only, the blocks that are wanted
 * out: what stands within each block, in the order of the page; '' where there is nothing to say
 */
export function trialBlocks(
  id: string,
  trial: HourlyTrial,
  setting: BlockSetting,
  only: readonly TrialBlock[] = TRIAL_BLOCKS,
): { block: TrialBlock; markup: string }[] {
  const figures = trialFigures(id, trial, setting);
  const drawn = (...keys: TrialFigure[]) => keys.map((key) => figurePart(id, figures[key]())).join('\n');
  const make: Record<TrialBlock, () => string> = {
    answer: () => answerMarkup(id, trial, setting),
    winters: () => drawn('winters', 'winter-counts'),
    nights: () => drawn('nights'),
    send: () => sendBlock(id, trial, setting),
    mends: () => drawn('changes'),
    capacitor: () => drawn('capacitor'),
    fortnight: () => drawn('fortnight'),
    brightness: () => drawn('brightness'),
    energy: () => drawn('energy'),
    sky: () => drawn('sky'),
    months: () => numbersMarkup(trial, setting),
  };
  return TRIAL_BLOCKS.filter((block) => only.includes(block)).map((block) => ({
    block,
    markup: make[block](),
  }));
}

/** The verdict of a trial, the few numbers it comes to, why, and what must be noted. */
function answerMarkup(id: string, trial: HourlyTrial, setting: BlockSetting): string {
  const { winters, odds } = trial.statistics;
  const { worst } = overWinters(winters);
  const { headline, why } = verdictWords(trial, setting, isolated);
  const money = priceSentence(setting.money);
  const title = `${nameMarkup(trial.lamp)} on ${nameMarkup(trial.spot)}`;
  return [
    `<h2 id="${id}-name">${title}<span class="verdict">${wordsMarkup(headline)}</span></h2>`,
    odds === undefined ? '' : oddsMarkup(odds),
    odds === undefined || worst === undefined
      ? ''
      : `<h3>The worst winter, ${wordsMarkup(worst.winter)}</h3>`,
    worst === undefined ? '' : factsMarkup(worst),
    paragraphMarkup(why, 'why'),
    money === '' ? '' : paragraphMarkup(money, 'why'),
    listMarkup(trial.flags, 'flags', 'Please note'),
  ].join('\n');
}

/** A trial in tables, winter by winter and month by month. */
function numbersMarkup({ statistics: { winters, months } }: HourlyTrial, { promise }: BlockSetting): string {
  const columns = monthColumns(promise.least_lumen).map(monthColumn);
  return [
    winters.length > 1
      ? foldedMarkup('Winter by winter, in numbers', tableMarkup('Winter by winter', WINTER_COLUMNS, winters))
      : '',
    foldedMarkup('Month by month, in numbers', tableMarkup('Month by month', columns, months)),
  ].join('\n');
}

const WINTER_COLUMNS: MarkupColumn<WinterStatistics>[] = [
  { heading: 'winter', cell: ({ winter, complete }) => (complete ? winter : `${winter} (in part)`) },
  numberColumn('nights', (row) => String(row.nights)),
  numberColumn('failed nights', (row) => String(row.failedNights)),
  numberColumn('of them out', (row) => String(row.failedOut)),
  numberColumn('dim, h', (row) => fixed(row.dim_h, 1)),
  numberColumn('out, h', (row) => fixed(row.out_h, 1)),
  numberColumn('most failed nights in a row', (row) => String(row.longestSpell?.nights ?? 0)),
  {
    heading: 'darkest fortnight',
    cell: ({ darkestFortnight: dark }) => (dark === undefined ? '' : spokenDates(dark.from, dark.to)),
  },
  numberColumn('least energy left in the morning, J', (row) => fixed(row.smallestReserve_J, 0)),
];

function monthColumn(column: Column<MonthStatistics>): MarkupColumn<MonthStatistics> {
  const { key, label, unit } = column;
  const heading = unit === '' ? label : `${label}, ${unit}`;
  return { heading, cell: (month) => monthCell(column, month), number: key !== 'month' };
}

const MEANINGS =
  '<details class="about"><summary>What these numbers mean</summary><dl>' +
  '<dt>Short</dt><dd>Promised hours dim (the LED on, below the promised level) or out (the LED off).</dd>' +
  '<dt>Failed</dt><dd>A night with more short hours than the tolerance; out where it was off for longer than that, else dim.</dd>' +
  "<dt>Energy left</dt><dd>Energy in the capacitor in the morning above what it holds at the driver's cut-off voltage; below it, what is missing.</dd>" +
  '<dt>Light</dt><dd>Lumen of all LEDs together, summed over the winter.</dd>' +
  '<dt>Source</dt><dd>The table of nights of this run, nights.csv; <a href="#grounds-assumptions">what was assumed</a>.</dd>' +
  '</dl></details>';

/** The few numbers that a winter comes to, large; '' where nothing was promised. */
function factsMarkup(winter: WinterStatistics): string {
  if (winter.nights === 0) return '';
  const { longestSpell: spell, worstNight, smallestReserve_J: left_J } = winter;
  const facts: Fact[] = [
    [
      `${winter.failedNights}`,
      `of ${winter.nights}`,
      `failed nights${winter.failedNights === 0 ? '' : `, ${dimOrOut(winter)}`}`,
    ],
    [
      fixed(winter.short_h, 1),
      'h',
      `short, of ${fixed(winter.promised_h, 0)} h promised${winter.short_h === 0 ? '' : `, ${dimAndOut(winter)}`}`,
    ],
  ];
  if (worstNight !== undefined && winter.failedNights > 0) {
    const night = spokenDates(worstNight.night);
    facts.push([fixed(worstNight.short_h, 1), 'h', `short in the worst night, ${night}`]);
  }
  if (spell !== undefined) {
    const dates = spokenDates(spell.from, spell.to);
    facts.push([
      `${spell.nights}`,
      plural(spell.nights, 'night'),
      `failed ${spell.nights > 1 ? 'in a row' : 'at a time'}, ${dates}`,
    ]);
  }
  if (!Number.isNaN(left_J)) {
    const night = spokenDates(winter.smallestReserveNight);
    const words =
      left_J < 0
        ? `missing below cut-off in the worst morning, after ${night}`
        : `least energy left in the morning above cut-off, after ${night}`;
    facts.push([fixed(Math.abs(left_J), 0), 'J', words]);
  }
  facts.push([fixed(winter.lightGiven_lm_h, 0), 'lm h', 'light given']);
  return `${factList(facts)}${MEANINGS}`;
}

type Fact = readonly [value: string, unit: string, words: string];

function factList(facts: readonly Fact[]): string {
  const items = facts.map(
    ([value, unit, words]) =>
      `<div class="fact"><dt>${wordsMarkup(words)}</dt><dd><b>${wordsMarkup(value)}</b> ${wordsMarkup(unit)}</dd></div>`,
  );
  return `<dl class="facts">${items.join('')}</dl>`;
}

/** What several winters come to as a sample, large. */
function oddsMarkup({ winters, kept, failedNights, chance, worstWinter }: WinterOdds): string {
  const { typical, worst, worstInTen } = failedNights;
  const inTen: Fact[] =
    worstInTen === undefined
      ? []
      : [[fixed(worstInTen, 0), 'nights', 'failed in the worst winter in ten, about']];
  return factList([
    [nightCount(typical), plural(typical, 'night'), 'failed in a typical winter, the median'],
    ...inTen,
    [`${worst}`, plural(worst, 'night'), `failed in the worst of ${winters} winters, ${worstWinter}`],
    [`${kept}`, `of ${winters}`, 'winters in which every night was kept'],
    [ofHundred(chance), 'of 100', `winters kept, as far as these tell (${surety(chance)})`],
  ]);
}
