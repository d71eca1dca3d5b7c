import { mean } from 'simple-statistics';
import type { NightRow } from '../night/NightRow.ts';

/** How long a night of a month was lit, by what counts as lit: hours a night, mean over its nights with a promise. */
export interface ThresholdMonth {
  /** 'YYYY-MM', of the evenings. */
  month: string;
  nights: number;
  promised_h: number;
  /** At or above the promised level, within the promise and beyond it. */
  abovePromised_h: number;
  /** More than half, and more than a fifth, of the light at switching on. */
  aboveHalf_h: number;
  aboveFifth_h: number;
}

/**
 * Light left by threshold, hours a night, month by month. Nights that the record holds only in part, or in which
 * nothing is promised, are left out.
 *
 * in: rows, the night ledger
 * out: a row a month, in the order of the rows
 */
export function thresholdMonths(rows: readonly NightRow[]): ThresholdMonth[] {
  const months = new Map<string, NightRow[]>();
  for (const row of rows) {
    if (!row.complete || row.outcome === 'nothing-promised') continue;
    const month = row.night.slice(0, 7);
    months.set(month, [...(months.get(month) ?? []), row]);
  }
  return [...months].map(([month, nights]) => {
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
