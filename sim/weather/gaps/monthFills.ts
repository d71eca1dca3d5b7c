import { HOUR_MS } from '../../common/time.ts';
import type { SunLight } from '../quality/SunLight.ts';

/**
 * Share of a month's hours of daylight that may be filled without being accepted explicitly. Three days in 31: with
 * daily clearness in December scattering by 0.7 of its mean, as it does at 58 degrees north, that moves the month's
 * light by some 5 percent (0.7 times the root of 2 times 3, over 31), what a well-kept sensor is wrong by. It counts
 * month by month, for it is December that decides, and a year's share would hide it.
 */
export const LARGEST_FILLED_SHARE = 0.1;
/** Share above which a month stays absent, accepted or not: most of it would be made up. */
export const LARGEST_ACCEPTED_SHARE = 0.5;

/** What was filled of one month. */
export interface MonthFill {
  /** 'YYYY-MM'. */
  month: string;
  /** Its hours in the record: from <= i < to. */
  from: number;
  to: number;
  /** Hours in which the sun is up at all. */
  daylight_h: number;
  filledDaylight_h: number;
  /** Hours of daylight that stay missing. */
  absentDaylight_h: number;
  /** whole: all measured; filled: a small share filled; much filled: to be accepted explicitly; absent: not usable. */
  state: 'whole' | 'filled' | 'much filled' | 'absent';
}

/**
 * What was filled of the daylight of each month of a record.
 *
 * in: ghi_W_m2, NaN where it stays missing; filled, 1 an hour; light, over the same hours
 * out: a row for every month from the first to the last
 */
export function monthFills(ghi_W_m2: Float64Array, filled: Uint8Array, light: SunLight): MonthFill[] {
  const { start_ms, upShare } = light.sun;
  const months: MonthFill[] = [];
  for (let i = 0; i < ghi_W_m2.length; ) {
    const date = new Date(start_ms + light.dayShift_ms + i * HOUR_MS);
    const next_ms = Date.UTC(date.getUTCFullYear(), date.getUTCMonth() + 1, 1);
    const to = Math.min(ghi_W_m2.length, i + Math.ceil((next_ms - date.getTime()) / HOUR_MS));
    const counts = { daylight_h: 0, filledDaylight_h: 0, absentDaylight_h: 0 };
    let missing = 0;
    for (let hour = i; hour < to; hour++) {
      const absent = Number.isNaN(ghi_W_m2[hour]!);
      if (absent) missing++;
      if (upShare[hour] === 0) continue;
      counts.daylight_h++;
      if (absent) counts.absentDaylight_h++;
      else counts.filledDaylight_h += filled[hour]!;
    }
    const share = counts.filledDaylight_h / counts.daylight_h;
    months.push({
      month: date.toISOString().slice(0, 7),
      from: i,
      to,
      ...counts,
      state: stateOf(missing, share),
    });
    i = to;
  }
  return months;
}

function stateOf(missing: number, share: number): MonthFill['state'] {
  if (missing > 0) return 'absent';
  if (share > LARGEST_FILLED_SHARE) return 'much filled';
  return share > 0 ? 'filled' : 'whole';
}
