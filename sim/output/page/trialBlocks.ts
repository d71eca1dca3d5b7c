import { fixed } from '../../common/csvText.ts';
import { overWinters } from '../../statistics/overWinters.ts';
import type { MonthStatistics, WinterStatistics } from '../../statistics/TrialStatistics.ts';
import type { HourlyTrial, Trial } from '../../trial/Trial.ts';
import type { BlockSetting } from '../BlockSetting.ts';
import { type Column, monthCell, monthColumns } from '../columns.ts';
import { isolated, wordsMarkup } from '../figures/element.ts';
import { SEND_SIZE, sendPicture } from '../figures/sendPicture.ts';
import { type TrialFigure, trialFigures } from '../figures/trialFigures.ts';
import { verdictWords } from '../winterSentences.ts';
import { spokenDates } from '../words.ts';
import { answerBlock, factList, winterFacts } from './answerBlock.ts';
import { figurePart } from './figurePart.ts';
import { mendsBlock } from './mendsBlock.ts';
import {
  foldedMarkup,
  listMarkup,
  type MarkupColumn,
  numberColumn,
  paragraphMarkup,
  tableMarkup,
} from './tableMarkup.ts';

/** The parts of a trial's part of the page, in their order; each can be made again on its own. */
export const TRIAL_BLOCKS = [
  'answer',
  'notes',
  'mends',
  'nights',
  'send',
  'why',
  'fortnight',
  'capacitor',
  'energy',
  'brightness',
  'sky',
  'winters',
  'numbers',
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
    answer: () => answerBlock(id, trial, setting),
    notes: () => listMarkup(trial.flags, 'flags', 'Please note'),
    mends: () => mendsBlock(trial, setting, drawn('changes')),
    nights: () => drawn('nights'),
    send: () => sendBlock(id, trial, setting),
    why: () => whyMarkup(trial, setting),
    fortnight: () => drawn('fortnight'),
    capacitor: () => drawn('capacitor'),
    energy: () => drawn('energy'),
    brightness: () => drawn('brightness'),
    sky: () => drawn('sky'),
    winters: () => drawn('winters', 'winter-counts'),
    numbers: () => numbersMarkup(trial, setting),
  };
  return TRIAL_BLOCKS.filter((block) => only.includes(block)).map((block) => ({
    block,
    markup: make[block](),
  }));
}

/**
 * What saves the picture to send: the picture itself waits unseen, and takes its marks from the night chart of the page.
 * Nothing where there is no night to be drawn.
 */
function sendBlock(id: string, trial: HourlyTrial, setting: BlockSetting): string {
  const picture = sendPicture(id, trial, setting);
  if (picture === undefined) return '';
  const { width, height } = SEND_SIZE;
  return (
    `<div class="send"><p>For whoever builds no lamps: these nights in one picture, with what they come to in two sentences.</p><div class="tools">` +
    `<button type="button" data-send="png">Save picture to send (PNG, ${width} x ${height})</button>` +
    `<button type="button" data-send="svg">Save picture to send (SVG)</button></div>` +
    `<template data-of="${id}">${picture.svg}</template></div>`
  );
}

/** Why a trial came to what it did: of several winters after what the worst of them came to. */
function whyMarkup(trial: Trial, setting: BlockSetting): string {
  const { winters, odds } = trial.statistics;
  const { worst } = overWinters(winters);
  const { why } = verdictWords(trial, setting, isolated);
  return [
    why === '' && worst === undefined ? '' : '<h3>Why</h3>',
    paragraphMarkup(why, 'why'),
    odds === undefined || worst === undefined
      ? ''
      : `<h4>The worst winter, ${wordsMarkup(worst.winter)}</h4>${factList(winterFacts(worst))}`,
    (worst?.nights ?? 0) > 0 ? MEANINGS : '',
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
