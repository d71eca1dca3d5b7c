import { exp } from '../common/elementary/exp.ts';
import { power } from '../common/elementary/power.ts';
import { square } from '../common/numeric.ts';
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
