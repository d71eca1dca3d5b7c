import { fixed } from '../../common/csvText.ts';
import type { TrialOdds } from '../../trial/odds.ts';
import { isolated } from '../figures/element.ts';
import { MOST_ODDS_DRAWN, oddsChart } from '../figures/oddsChart.ts';
import {
  basisSentence,
  batchSentence,
  builtSentence,
  doubtSentence,
  hundredth,
  rangeSentence,
  type SaidOdds,
  secondWords,
} from '../oddsText.ts';
import { ofHundred } from '../oddsWords.ts';
import { figurePart } from './figurePart.ts';
import { listMarkup, type MarkupColumn, numberColumn, paragraphMarkup, tableMarkup } from './tableMarkup.ts';

/**
 * What made winters say, as a part of the page: the chance of each trial with its doubt, and when it fails.
 *
 * in: odds; southern, whether the season begins with January; id, its own on the page
 * out: markup
 */
export function oddsPart(odds: SaidOdds, southern: boolean, id = 'odds'): string {
  const { trials } = odds;
  const doubts = trials
    .map((trial) => doubtSentence(trial, odds))
    .filter((words) => words !== '')
    // The list has a mark of its own.
    .map((words) => words.replace(/^\? /, ''));
  return [
    `<section class="shared" id="${id}" aria-labelledby="${id}-name">`,
    `<h2 id="${id}-name">How likely is a bad winter</h2>`,
    paragraphMarkup(basisSentence(odds), 'why'),
    tableMarkup('How likely is a bad winter', COLUMNS, trials),
    paragraphMarkup(rangeSentence(odds), 'why'),
    listMarkup(doubts, 'flags', 'Please note'),
    ...[...trials.map(batchSentence), builtSentence(odds)]
      .filter((words) => words !== '')
      .map((words) => paragraphMarkup(words, 'why')),
    ...trials
      .slice(0, MOST_ODDS_DRAWN)
      .map((trial, k) => figurePart(`${id}-${k + 1}`, oddsChart(`${id}-${k + 1}`, trial, southern))),
    '</section>',
  ].join('\n');
}

const COLUMNS: MarkupColumn<TrialOdds>[] = [
  { heading: 'lamp', cell: ({ lamp }) => isolated(lamp) },
  { heading: 'spot', cell: ({ spot }) => isolated(spot) },
  numberColumn('of 100 winters keeps', ({ keeps }) => hundredth(keeps.share)),
  numberColumn('between', ({ keeps }) => ofHundred(keeps, ' and ')),
  numberColumn('failed nights, typical winter', ({ failedNights }) => fixed(failedNights.typical, 0)),
  numberColumn('worst winter in ten', ({ failedNights }) => fixed(failedNights.worstInTen, 0)),
  numberColumn('mean', ({ failedNights }) => fixed(failedNights.mean, 1)),
  numberColumn('other way: keeps, mean', secondWords),
  numberColumn('failed nights in a row, worst in ten', ({ longestSpell }) => fixed(longestSpell, 0)),
];
