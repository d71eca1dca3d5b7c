import type { YearColumns } from '../year/YearColumns.ts';
import type { CivilDay } from './civilHours.ts';

/** Between what voltages the capacitor moved on a civil date. */
export interface CapacitorDay {
  night: string;
  lowest_V: number;
  highest_V: number;
}

/**
 * The band of the capacitor's voltage, day by day, volts: lowest within the hours, highest at their ends.
 * in: columns, hours of a trial; days, the hours of each civil date
 * out: a row a day
 */
export function capacitorDays(
  columns: Pick<YearColumns, 'capacitorLowest_V' | 'capacitorEnd_V'>,
  days: readonly CivilDay[],
): CapacitorDay[] {
  return days.map(({ date, from, to }) => {
    let lowest_V = Number.POSITIVE_INFINITY;
    let highest_V = Number.NEGATIVE_INFINITY;
    for (let i = from; i < to; i++) {
      lowest_V = Math.min(lowest_V, columns.capacitorLowest_V[i]!);
      highest_V = Math.max(highest_V, columns.capacitorEnd_V[i]!);
    }
    return { night: date, lowest_V, highest_V };
  });
}
