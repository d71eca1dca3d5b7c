import type { YearColumns } from '../year/YearColumns.ts';
import type { CivilDay } from './civilHours.ts';

/** Between what voltages the store moved on a civil date. */
export interface StoreDay {
  night: string;
  lowest_V: number;
  highest_V: number;
}

/**
 * The band of the store's voltage, day by day, volts: lowest within the hours, highest at their ends.
 * in: columns, hours of a trial; days, the hours of each civil date
 * out: a row a day
 */
export function storeDays(
  columns: Pick<YearColumns, 'storeLowest_V' | 'storeEnd_V'>,
  days: readonly CivilDay[],
): StoreDay[] {
  return days.map(({ date, from, to }) => {
    let lowest_V = Number.POSITIVE_INFINITY;
    let highest_V = Number.NEGATIVE_INFINITY;
    for (let i = from; i < to; i++) {
      lowest_V = Math.min(lowest_V, columns.storeLowest_V[i]!);
      highest_V = Math.max(highest_V, columns.storeEnd_V[i]!);
    }
    return { night: date, lowest_V, highest_V };
  });
}
