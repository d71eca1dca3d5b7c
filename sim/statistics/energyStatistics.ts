import { compensatedSum } from '../common/numeric.ts';
import { columnsOf, YEAR_COLUMNS, type YearColumns } from '../year/YearColumns.ts';
import type { CivilDay } from './civilHours.ts';
import type { EnergyColumn, EnergyMonth, EnergyStatistics } from './TrialStatistics.ts';

/**
 * The energy ledger of a whole run, joules.
 *
 * in: columns, the hours; light_W_m2 on the cell; area_m2 of the cells, NaN where unknown
 * out: the sums; light_J and conversionLoss_J are NaN where the area is unknown
 */
export function energyStatistics(
  columns: YearColumns,
  light_W_m2: Float64Array,
  area_m2: number,
): EnergyStatistics {
  const names = YEAR_COLUMNS.filter((name) => name.endsWith('_J'));
  const sums = Object.fromEntries(names.map((name) => [name, compensatedSum(columns[name])]));
  const { cellBest_J, unharvestedLow_J, unharvestedHigh_J, ...others } = sums as Record<EnergyColumn, number>;
  const light_J = compensatedSum(light_W_m2) * 3600 * area_m2;
  return {
    light_J,
    conversionLoss_J: light_J - cellBest_J,
    cellBest_J,
    unharvestedCapacitorLow_J: unharvestedLow_J,
    unharvestedCapacitorHigh_J: unharvestedHigh_J,
    ...others,
  };
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
  return columnsOf(YEAR_COLUMNS, to - from, (name) => columns[name].subarray(from, to));
}
