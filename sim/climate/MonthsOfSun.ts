import { HOUR_MS } from '../common/time.ts';
import type { WinterFrame } from './madeWinters.ts';
import { DAY_H } from './RecordedDays.ts';
import { type SkyHours, skyHours } from './SkyHours.ts';

/** Clearest air of an hour or day, as a share of the light outside it; common practice, no source. */
const CLEAREST_SHARE = 0.8;
/** Months with less light a day than this outside the air have no clearness to speak of, kWh/m2. */
const LEAST_OUTSIDE_KWH_M2 = 0.05;

/** What the sun allows in each month of a frame, January to December. */
export interface MonthsOfSun {
  sky: SkyHours;
  /** Month of each day of the frame, 0 = January. */
  monthOfDay: Uint8Array;
  /** Days of each month. */
  days: number[];
  /** Mean light outside the air on level ground, kWh/m2 a day. */
  outside_kWh_m2_day: number[];
  /** Clearness index under the cleanest sky. */
  clearest: number[];
  /** Whether the sun stays down, or hardly rises. */
  isDark: boolean[];
}

/**
 * What the sun allows month by month.
 *
 * in: frame
 * source: IneichenPerez2002 for the cleanest sky
 */
export function monthsOfSun({ sun, site, season }: WinterFrame): MonthsOfSun {
  const sky = skyHours(sun, site.elevation_m, CLEAREST_SHARE);
  const monthOfDay = Uint8Array.from(season, (_, d) =>
    new Date(sun.start_ms + (d * DAY_H + 12) * HOUR_MS).getUTCMonth(),
  );
  const days = new Array<number>(12).fill(0);
  const outside = new Array<number>(12).fill(0);
  const bound = new Array<number>(12).fill(0);
  monthOfDay.forEach((month, d) => {
    days[month]!++;
    outside[month]! += sky.dailyExtraterrestrial_Wh_m2[d]! / 1000;
    bound[month]! += sky.dailyBound_Wh_m2[d]! / 1000;
  });
  const outside_kWh_m2_day = outside.map((sum, month) => sum / days[month]!);
  return {
    sky,
    monthOfDay,
    days,
    outside_kWh_m2_day,
    clearest: outside.map((sum, month) => (sum > 0 ? bound[month]! / sum : 0)),
    isDark: outside_kWh_m2_day.map((mean) => mean < LEAST_OUTSIDE_KWH_M2),
  };
}
