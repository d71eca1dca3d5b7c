import { compensatedSum } from '../common/numeric.ts';
import { YEAR_COLUMNS, type YearColumns } from '../year/YearColumns.ts';
import type { CivilDay } from './civilHours.ts';
import type { EnergyMonth, EnergyStatistics } from './TrialStatistics.ts';

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
  const light_J = compensatedSum(light_W_m2) * 3600 * area_m2;
  const cellBest_J = compensatedSum(columns.cellBest_J);
  return {
    light_J,
    conversionLoss_J: light_J - cellBest_J,
    cellBest_J,
    unharvestedCapacitorLow_J: compensatedSum(columns.unharvestedLow_J),
    unharvestedCapacitorHigh_J: compensatedSum(columns.unharvestedHigh_J),
    cell_J: compensatedSum(columns.cell_J),
    diodeLoss_J: compensatedSum(columns.diodeLoss_J),
    resistanceLoss_J: compensatedSum(columns.resistanceLoss_J),
    delayedBranchLoss_J: compensatedSum(columns.delayedBranchLoss_J),
    leakage_J: compensatedSum(columns.leakage_J),
    limiter_J: compensatedSum(columns.limiter_J),
    standby_J: compensatedSum(columns.standby_J),
    driverLoss_J: compensatedSum(columns.driverLoss_J),
    led_J: compensatedSum(columns.led_J),
    storedChange_J: compensatedSum(columns.storedChange_J),
    residual_J: compensatedSum(columns.residual_J),
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
  const part = { ...columns, count: to - from };
  for (const name of YEAR_COLUMNS) part[name] = columns[name].subarray(from, to);
  return part;
}
