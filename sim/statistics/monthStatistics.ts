import { mean } from 'simple-statistics';
import { compensatedSum } from '../common/numeric.ts';
import type { NightRow } from '../night/NightRow.ts';
import type { MonthStatistics } from './types.ts';

/**
 * The night ledger by calendar month of the evenings, in the order of time. Nights that the record holds only in
 * part are left out.
 * in: rows, the night ledger
 */
export function monthStatistics(rows: readonly NightRow[]): MonthStatistics[] {
  const months = new Map<string, NightRow[]>();
  for (const row of rows) {
    if (!row.complete) continue;
    const month = row.night.slice(0, 7);
    const nights = months.get(month);
    if (nights === undefined) months.set(month, [row]);
    else nights.push(row);
  }
  return [...months].map(([month, nights]) => {
    const sum = (value: (row: NightRow) => number) => compensatedSum(nights.map(value));
    const known = (value: (row: NightRow) => number) => {
      const values = nights.map(value).filter((x) => !Number.isNaN(x));
      return values.length === 0 ? Number.NaN : mean(values);
    };
    const lowest = nights.map((row) => row.capacitorLowest_V).filter((x) => !Number.isNaN(x));
    return {
      month,
      nights: nights.filter((row) => row.outcome !== 'nothing-promised').length,
      failedNights: nights.filter((row) => row.outcome === 'failed').length,
      promised_h: sum((row) => row.promised_h),
      lit_h: sum((row) => row.lit_h),
      short_h: sum((row) => row.short_h),
      lightOnCell_Wh_m2_day: mean(nights.map((row) => row.lightOnCell_Wh_m2)),
      ghi_Wh_m2_day: known((row) => row.ghi_Wh_m2),
      capacitorDusk_V: known((row) => row.capacitorDusk_V),
      capacitorDawn_V: known((row) => row.capacitorDawn_V),
      capacitorLowest_V: lowest.length === 0 ? Number.NaN : Math.min(...lowest),
      lightGiven_lm_h: sum((row) => row.lightGiven_lm_h),
      aboveHalf_h: sum((row) => row.aboveHalf_h),
      aboveFifth_h: sum((row) => row.aboveFifth_h),
    };
  });
}
