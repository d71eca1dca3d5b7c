import { fixed } from '../common/csvText.ts';
import type { MonthStatistics } from '../statistics/types.ts';
import type { Trial } from '../trial/Trial.ts';
import { type TextColumn, textTable } from './textTable.ts';

/** More months than these are cut to those with failed nights. */
const MOST_MONTHS = 13;

/**
 * A trial month by month, as lines for the terminal: failed nights, hours, light on the cell, capacitor.
 *
 * in: trial; leastLight_lm, from which the LED counts as lit
 * out: lines of at most 100 characters; where the record is long, only the months with failed nights
 */
export function monthTable(trial: Trial, leastLight_lm: number): string[] {
  const { months } = trial.statistics;
  const shown = months.length > MOST_MONTHS ? months.filter((month) => month.failedNights > 0) : months;
  const lines = shown.length > 0 ? textTable(monthColumns(leastLight_lm), shown) : [];
  const left = months.length - shown.length;
  return left === 0 ? lines : [...lines, `  ${left} months without a failed night are not shown`];
}

function monthColumns(leastLight_lm: number): TextColumn<MonthStatistics>[] {
  const number = (
    heading: readonly [string, string],
    decimals: number,
    value: (month: MonthStatistics) => number,
  ): TextColumn<MonthStatistics> => ({
    heading,
    cell: (month) => fixed(value(month), decimals) || '-',
  });
  return [
    { heading: ['month', ''], cell: (month) => month.month },
    number(['', 'nights'], 0, (month) => month.nights),
    number(['', 'failed'], 0, (month) => month.failedNights),
    number(['dark', 'h'], 1, (month) => month.short_h),
    number(['lit h', `>=${leastLight_lm} lm`], 1, (month) => month.lit_h),
    number(['h over', '1/2'], 1, (month) => month.aboveHalf_h),
    number(['h over', '1/5'], 1, (month) => month.aboveFifth_h),
    number(['on cell', 'Wh/m2'], 0, (month) => month.lightOnCell_Wh_m2_day),
    number(['level', 'Wh/m2'], 0, (month) => month.ghi_Wh_m2_day),
    number(['capacitor V', 'dusk'], 2, (month) => month.capacitorDusk_V),
    number(['', 'dawn'], 2, (month) => month.capacitorDawn_V),
    number(['', 'lowest'], 2, (month) => month.capacitorLowest_V),
  ];
}
