import { fixed } from '../../common/csvText.ts';
import { overWinters } from '../../statistics/overWinters.ts';
import type { MonthStatistics, WinterStatistics } from '../../statistics/TrialStatistics.ts';
import type { RunResult } from '../../trial/RunResult.ts';
import type { Trial } from '../../trial/Trial.ts';
import { civilStamp } from '../civilStamp.ts';
import { escapeText } from '../figures/element.ts';
import type { Figure } from '../figures/Figure.ts';
import { headline, lightSentence, winterSentences } from '../winterSentences.ts';
import { factsPart } from './factsPart.ts';
import { figurePart } from './figurePart.ts';
import { nameMarkup } from './nameMarkup.ts';
import { type MarkupColumn, tableMarkup } from './tableMarkup.ts';

/**
 * A trial's part of the page: its verdict, why, what would help, and its pictures.
 *
 * in: id; trial; figures, its own; run
 * out: markup
 */
export function trialPart(id: string, trial: Trial, figures: readonly Figure[], run: RunResult): string {
  const { winters, verdict, months } = trial.statistics;
  const { site, promise } = run.scenario;
  const { worst } = overWinters(winters);
  const sentences =
    worst === undefined ? [] : winterSentences(worst, trial, civilStamp(site.timeZone), winters.length > 1);
  const light = lightSentence(trial, run.trials, site.latitude_deg < 0);
  const flags = trial.flags.map((flag) => `<li>${escapeText(flag)}</li>`).join('');
  const title = `${nameMarkup(trial.lamp)} on ${nameMarkup(trial.spot)}`;
  return [
    `<section class="trial" id="${id}" data-verdict="${verdict}" aria-labelledby="${id}-name">`,
    `<h2 id="${id}-name">${title}<span class="verdict">${escapeText(headline(trial, worst))}</span></h2>`,
    worst === undefined ? '' : factsPart(worst),
    `<p class="why">${escapeText([...sentences, light].join(' '))}</p>`,
    flags === '' ? '' : `<ul class="flags" aria-label="Note well">${flags}</ul>`,
    ...figures.map((figure) => figurePart(id, figure)),
    winters.length > 1
      ? folded('Winter by winter', tableMarkup('Winter by winter', WINTER_COLUMNS, winters))
      : '',
    folded(
      'Month by month, in numbers',
      tableMarkup('Month by month', monthColumns(promise.least_lumen), months),
    ),
    '</section>',
  ].join('\n');
}

function folded(summary: string, markup: string): string {
  return `<details class="folded"><summary>${summary}</summary>${markup}</details>`;
}

const WINTER_COLUMNS: MarkupColumn<WinterStatistics>[] = [
  { heading: 'winter', cell: ({ winter, complete }) => (complete ? winter : `${winter} (in part)`) },
  { heading: 'nights', number: true, cell: (row) => String(row.nights) },
  { heading: 'failed', number: true, cell: (row) => String(row.failedNights) },
  { heading: 'dark, h', number: true, cell: (row) => fixed(row.short_h, 1) },
  { heading: 'longest spell, nights', number: true, cell: (row) => String(row.longestSpell?.nights ?? 0) },
  { heading: 'least reserve, J', number: true, cell: (row) => fixed(row.smallestReserve_J, 0) },
];

function monthColumns(level_lm: number): MarkupColumn<MonthStatistics>[] {
  const number = (
    heading: string,
    decimals: number,
    of: (month: MonthStatistics) => number,
  ): MarkupColumn<MonthStatistics> => ({
    heading,
    number: true,
    cell: (month) => fixed(of(month), decimals),
  });
  return [
    { heading: 'month', cell: ({ month }) => month },
    number('nights', 0, (month) => month.nights),
    number('failed', 0, (month) => month.failedNights),
    number('dark, h', 1, (month) => month.short_h),
    number(`lit, h at ${level_lm} lm or more`, 1, (month) => month.lit_h),
    number('over half, h', 1, (month) => month.aboveHalf_h),
    number('over a fifth, h', 1, (month) => month.aboveFifth_h),
    number('on the cell, Wh/m2 a day', 0, (month) => month.lightOnCell_Wh_m2_day),
    number('in the open, Wh/m2 a day', 0, (month) => month.ghi_Wh_m2_day),
    number('capacitor at dusk, V', 2, (month) => month.capacitorDusk_V),
    number('at dawn, V', 2, (month) => month.capacitorDawn_V),
    number('lowest, V', 2, (month) => month.capacitorLowest_V),
  ];
}
