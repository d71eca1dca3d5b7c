import { YEAR_COLUMNS, type YearColumns } from '../year/YearColumns.ts';
import type { CivilDay } from './civilHours.ts';
import { energyStatistics } from './energyStatistics.ts';
import type { EnergyStatistics } from './types.ts';

/** The energy ledger of a calendar month. */
export interface EnergyMonth extends EnergyStatistics {
  /** 'YYYY-MM', of the civil dates. */
  month: string;
}

/**
 * The energy ledger month by month, joules, in the order of time.
 * in: columns, hours of a trial; light_W_m2 on its cell; area_m2 of the cells, NaN where unknown; days, the hours of each civil date
 * out: a row a month
 */
export function energyMonths(
  columns: YearColumns,
  light_W_m2: Float64Array,
  area_m2: number,
  days: readonly CivilDay[],
): EnergyMonth[] {
  const spans = new Map<string, { from: number; to: number }>();
  for (const { date, from, to } of days) {
    const month = date.slice(0, 7);
    spans.set(month, { from: spans.get(month)?.from ?? from, to });
  }
  return [...spans].map(([month, { from, to }]) => ({
    month,
    ...energyStatistics(hoursOf(columns, from, to), light_W_m2.subarray(from, to), area_m2),
  }));
}

/** A stretch of the same columns, not copied. */
function hoursOf(columns: YearColumns, from: number, to: number): YearColumns {
  const part = { ...columns, count: to - from };
  for (const name of YEAR_COLUMNS) part[name] = columns[name].subarray(from, to);
  return part;
}
