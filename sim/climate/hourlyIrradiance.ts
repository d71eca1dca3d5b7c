import { exp } from '../common/elementary/exp.ts';
import { power } from '../common/elementary/power.ts';
import { square } from '../common/numeric.ts';
import type { RandomStream } from '../common/random.ts';
import { fitDay } from './fitDay.ts';
import { DAY_H } from './RecordedDays.ts';
import type { SkyHours } from './SkyHours.ts';

/**
 * Correlation of the roughness of successive hours, and factor on its size, as drawn. Scaling a day back to its sum
 * takes away what its hours have in common; what is left has the published size and the published correlation 0.54
 * (Graham1990), which a test measures.
 */
const DRAWN = { persistence: 0.8, size: 1.4 };

/** The dullest hour of a day, as a share of its usual clearness. An assumption: the thickest cloud is grey, not black. */
const DULLEST_SHARE = 0.15;

/**
 * Hourly global irradiance on the horizontal (W/m2, mean over the hour) from the clearness of each day: the average
 * shape of the day, roughened by clouds, never above the bound of its hour, 0 with the sun down.
 *
 * in: sky, what the sun allows; clearness, one index a day; random, a stream
 * out: one value an hour; a day's sum is its clearness times its extraterrestrial sum, unless the bounds forbid it
 * source: CollaresPereiraRabl1979 for the shape, AguiarCollaresPereira1992 for the size of the roughness, Graham1990
 *   for its persistence
 * departs: the roughness is normal and cut off at 0.15 of the usual clearness and at the bound, and each day is
 *   scaled back to its sum; the papers map a beta or a cut-off normal distribution
 */
export function hourlyIrradiance(sky: SkyHours, clearness: Float64Array, random: RandomStream): Float64Array {
  const ghi_W_m2 = new Float64Array(clearness.length * DAY_H);
  clearness.forEach((daily, day) => {
    const start = day * DAY_H;
    const roughness = hourRoughness(daily);
    let before = random.normal();
    for (let hour = start; hour < start + DAY_H; hour++) {
      before = DRAWN.persistence * before + Math.sqrt(1 - square(DRAWN.persistence)) * random.normal();
      if (sky.extraterrestrial_W_m2[hour] === 0) continue;
      const usual = daily * sky.shape[hour]!;
      const rough = usual + DRAWN.size * roughness(sky.sineAltitude[hour]!) * before;
      ghi_W_m2[hour] = Math.max(rough, DULLEST_SHARE * usual) * sky.extraterrestrial_W_m2[hour]!;
    }
    fitDay(
      ghi_W_m2.subarray(start, start + DAY_H),
      sky.bound_W_m2.subarray(start, start + DAY_H),
      daily * sky.dailyExtraterrestrial_Wh_m2[day]!,
    );
  });
  return ghi_W_m2;
}

/**
 * Deviation of the hour's clearness index from what is usual for the hour and the day (no unit).
 *
 * in: daily, clearness index of the day, 0 to 0.8
 * out: takes the sine of the sun's altitude, 0 to 1; gives the standard deviation, 0 to about 0.3
 * source: AguiarCollaresPereira1992
 * @example hourRoughness(0.3)(1); // => 0.13317
 */
export function hourRoughness(daily: number): (sineAltitude: number) => number {
  const size = 0.14 * exp(-20 * square(daily - 0.35));
  const growth = 3 * square(daily - 0.45) + 16 * power(daily, 5);
  return (sineAltitude) => size * exp(growth * (1 - sineAltitude));
}
