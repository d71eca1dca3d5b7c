import { mean, median } from 'simple-statistics';
import { HOUR_MS } from '../../common/time.ts';
import type { SunLight } from './SunLight.ts';

/** An hour may exceed the cleanest cloudless sky by this share and this much, by clouds at the sun's side; common practice, no source. */
export const CLEAR_SKY_MARGIN = { share: 0.1, W_m2: 30 } as const;

/**
 * Hours in which global irradiance exceeds that of the cleanest cloudless sky by more than the stated margin.
 *
 * in: ghi_W_m2, NaN missing; light, over the same hours
 * out: one byte an hour
 * source: IneichenPerez2002, Linke turbidity 2
 */
export function aboveClearSky(ghi_W_m2: Float64Array, light: SunLight): Uint8Array {
  const above = new Uint8Array(ghi_W_m2.length);
  for (let i = 0; i < above.length; i++) {
    const highest = light.cleanest_W_m2[i]! * (1 + CLEAR_SKY_MARGIN.share) + CLEAR_SKY_MARGIN.W_m2;
    if (light.dark[i] === 0 && ghi_W_m2[i]! > highest) above[i] = 1;
  }
  return above;
}

/** Hours in which the three components could be held against each other, and those in which they disagree. */
export interface Closure {
  tested: number;
  open: Uint8Array;
  /** Mean of global over the sum of the others, 1 where all is well; NaN without a tested hour. */
  meanRatio: number;
}

/**
 * Hours in which global irradiance and the sum of diffuse and direct on the flat differ by more than published
 * bounds: 8 percent, 15 with the sun below 15 degrees; or diffuse exceeds global by 5 (10) percent.
 *
 * in: ghi_W_m2, dni_W_m2, dhi_W_m2, NaN missing; light, over the same hours
 * out: one byte an hour
 * valid: hours with the sun up throughout and a sum above 50 W/m2
 * source: LongDutton2002, across-quantities tests
 */
export function notClosing(
  ghi_W_m2: Float64Array,
  dni_W_m2: Float64Array,
  dhi_W_m2: Float64Array,
  light: SunLight,
): Closure {
  const { sun } = light;
  const open = new Uint8Array(ghi_W_m2.length);
  let tested = 0;
  let ratios = 0;
  for (let i = 0; i < open.length; i++) {
    const sum = dhi_W_m2[i]! + dni_W_m2[i]! * sun.upCosZenith[i]!;
    if (sun.upShare[i]! < 1 || !(sum > 50) || Number.isNaN(ghi_W_m2[i]!)) continue;
    const ratio = ghi_W_m2[i]! / sum;
    const high = sun.altitude_deg[i]! > 15;
    tested++;
    ratios += ratio;
    const diffuse = ghi_W_m2[i]! > 50 ? dhi_W_m2[i]! / ghi_W_m2[i]! : 0;
    if (Math.abs(ratio - 1) > (high ? 0.08 : 0.15) || diffuse > (high ? 1.05 : 1.1)) open[i] = 1;
  }
  return { tested, open, meanRatio: ratios / tested };
}

/** How bright the clear days of one year are. */
export interface ClearDaysOfYear {
  year: number;
  /** Days that could be judged: sun above 20 degrees at noon, no hour missing around it. */
  days: number;
  /** Mean over the clearest twentieth of them: light around noon over that of the cleanest cloudless sky. */
  clearness: number;
  /** Clearness over the median of all years, minus 1; 0 where there is one year, or no year has clear days. */
  departure: number;
}

const FEWEST_DAYS = 120;
const NOON_REACH_DEG = 40;
/** Below it the brightest days are cloudy too, and tell of the weather. */
const LEAST_CLEARNESS = 0.8;

/**
 * Brightness of the clear days year by year, as a share of the cleanest cloudless sky: the sky's best hardly changes,
 * so a year that departs points to the sensor (dirt, tilt, calibration).
 *
 * in: ghi_W_m2, NaN missing; light, over the same hours
 * out: a row for every year with at least 120 judged days
 * valid: volcanic years and a changed haze depart by a few percent too
 * source: IneichenPerez2002
 */
export function yearlyClearDays(ghi_W_m2: Float64Array, light: SunLight): ClearDaysOfYear[] {
  const byYear = new Map<number, number[]>();
  for (const { year, ratio } of noonRatios(ghi_W_m2, light)) {
    byYear.set(year, [...(byYear.get(year) ?? []), ratio]);
  }
  const years = [...byYear].filter(([, ratios]) => ratios.length >= FEWEST_DAYS);
  const rows = years.map(([year, ratios]) => {
    const clearest = ratios.toSorted((a, b) => b - a).slice(0, Math.ceil(ratios.length / 20));
    return { year, days: ratios.length, clearness: mean(clearest) };
  });
  if (rows.length === 0) return [];
  const usual = median(rows.map((row) => row.clearness));
  const judged = usual >= LEAST_CLEARNESS;
  return rows.map((row) => ({ ...row, departure: judged ? row.clearness / usual - 1 : 0 }));
}

/** Light around the noon of each day over that of the cleanest sky. */
function* noonRatios(ghi_W_m2: Float64Array, light: SunLight): Generator<{ year: number; ratio: number }> {
  const { hourAngle_deg, altitude_deg, count, start_ms } = light.sun;
  for (let i = 0; i < count; i++) {
    if (Math.abs(hourAngle_deg[i]! + 7.5) > NOON_REACH_DEG) continue;
    let light_W_m2 = 0;
    let clear_W_m2 = 0;
    let highest_deg = -90;
    const first = i;
    for (; i < count && Math.abs(hourAngle_deg[i]! + 7.5) <= NOON_REACH_DEG; i++) {
      light_W_m2 += ghi_W_m2[i]!;
      clear_W_m2 += light.cleanest_W_m2[i]!;
      highest_deg = Math.max(highest_deg, altitude_deg[i]!);
    }
    if (i - first < 5 || highest_deg < 20 || Number.isNaN(light_W_m2)) continue;
    const year = new Date(start_ms + first * HOUR_MS + light.solarShift_ms).getUTCFullYear();
    yield { year, ratio: light_W_m2 / clear_W_m2 };
  }
}
