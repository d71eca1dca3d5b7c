import { groups, min } from 'd3-array';
import { mean } from 'simple-statistics';
import { compensatedSum } from '../common/numeric.ts';
import type { NightRow } from '../night/nightLedger.ts';
import type { MonthStatistics, ThresholdMonth } from './TrialStatistics.ts';

const byMonth = (rows: readonly NightRow[]) => groups(rows, (row) => row.night.slice(0, 7));

/**
 * The night ledger by calendar month of the evenings, in the order of time. Nights that the record holds only in
 * part are left out.
 * in: rows, the night ledger
 */
export function monthStatistics(rows: readonly NightRow[]): MonthStatistics[] {
  return byMonth(rows.filter((row) => row.complete)).map(([month, nights]) => {
    const sum = (value: (row: NightRow) => number) => compensatedSum(nights.map(value));
    const known = (value: (row: NightRow) => number) => {
      const values = nights.map(value).filter((x) => !Number.isNaN(x));
      return values.length === 0 ? Number.NaN : mean(values);
    };
    return {
      month,
      nights: nights.filter((row) => row.outcome !== 'nothing-promised').length,
      failedNights: nights.filter((row) => row.outcome === 'failed').length,
      promised_h: sum((row) => row.promised_h),
      lit_h: sum((row) => row.lit_h),
      short_h: sum((row) => row.short_h),
      dim_h: sum((row) => row.dim_h),
      out_h: sum((row) => row.out_h),
      lightOnCell_Wh_m2_day: mean(nights.map((row) => row.lightOnCell_Wh_m2)),
      ghi_Wh_m2_day: known((row) => row.ghi_Wh_m2),
      capacitorDusk_V: known((row) => row.capacitorDusk_V),
      capacitorDawn_V: known((row) => row.capacitorDawn_V),
      capacitorLowest_V: min(nights, (row) => row.capacitorLowest_V) ?? Number.NaN,
      lightGiven_lm_h: sum((row) => row.lightGiven_lm_h),
      aboveHalf_h: sum((row) => row.aboveHalf_h),
      aboveFifth_h: sum((row) => row.aboveFifth_h),
    };
  });
}

/**
 * Light left by threshold, hours a night, month by month. Nights that the record holds only in part, or in which
 * nothing is promised, are left out.
 *
 * in: rows, the night ledger
 * out: a row a month, in the order of the rows
 */
export function thresholdMonths(rows: readonly NightRow[]): ThresholdMonth[] {
  const promised = rows.filter((row) => row.complete && row.outcome !== 'nothing-promised');
  return byMonth(promised).map(([month, nights]) => {
    const usual = (value: (row: NightRow) => number) => mean(nights.map(value));
    return {
      month,
      nights: nights.length,
      promised_h: usual((row) => row.promised_h),
      abovePromised_h: usual((row) => row.lit_h + row.litBeyondPromise_h),
      aboveHalf_h: usual((row) => row.aboveHalf_h),
      aboveFifth_h: usual((row) => row.aboveFifth_h),
    };
  });
}
