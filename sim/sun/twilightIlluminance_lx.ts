import { power } from '../common/elementary/power.ts';

/** Altitudes of the sun's centre, and horizontal illuminance under a clear sky there. */
const CURVE: readonly (readonly [altitude_deg: number, illuminance_lx: number])[] = [
  [-0.833, 490],
  [-6, 2.7],
  [-12, 0.008],
  [-18, 0.0006],
];

/**
 * Horizontal illuminance of a clear twilight, lux: straight lines of its logarithm against the sun's altitude.
 *
 * in: altitude_deg of the sun's centre, geometric; above -0.833 the value at sunset
 * out: lux; below 18 degrees under the horizon the value there
 * valid: within a factor of 2, or some ten minutes of the evening: the source gives 585 to 410 lx at sunset, 3.5 to 2
 *   at 6 degrees below, 0.008 at 12, 0.0006 at 18; the middle of each is taken
 * source: AMSGlossary
 * @example twilightIlluminance_lx(-6); // => 2.7
 */
export function twilightIlluminance_lx(altitude_deg: number): number {
  for (let i = 1; i < CURVE.length; i++) {
    const [high_deg, high_lx] = CURVE[i - 1]!;
    const [low_deg, low_lx] = CURVE[i]!;
    if (altitude_deg >= high_deg) return high_lx;
    if (altitude_deg === low_deg) return low_lx;
    if (altitude_deg > low_deg) {
      return high_lx * power(low_lx / high_lx, (high_deg - altitude_deg) / (high_deg - low_deg));
    }
  }
  return CURVE[CURVE.length - 1]![1];
}
