import { fixed } from '../common/csvText.ts';
import type { MonthStatistics } from '../statistics/TrialStatistics.ts';
import type { Trial } from '../trial/Trial.ts';
import { monthColumns } from './columns.ts';
import { textTable } from './textTable.ts';

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
  const columns = monthColumns(leastLight_lm).map(({ key, decimals, tight }) => ({
    heading: tight,
    cell: (month: MonthStatistics) => {
      const value = month[key];
      return typeof value === 'string' ? value : fixed(value, decimals) || '-';
    },
  }));
  const lines = shown.length > 0 ? textTable(columns, shown) : [];
  const left = months.length - shown.length;
  return left === 0 ? lines : [...lines, `  ${left} months without a failed night are not shown`];
}
