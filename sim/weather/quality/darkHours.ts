import { geometricAltitude } from '../../sun/solarPosition.ts';
import { type SunColumns, sunWithinHour } from '../../sun/sunColumns.ts';
import { SUN_DOWN_DEG } from '../limits.ts';

/**
 * Hours in which the sun stays more than 6 degrees below the horizon from end to end, as 1; others 0.
 *
 * in: sun, over the hours
 * out: one byte an hour
 */
export function darkHours(sun: SunColumns): Uint8Array {
  const dark = new Uint8Array(sun.count);
  for (let i = 0; i < sun.count; i++) {
    if (sun.altitude_deg[i]! > SUN_DOWN_DEG + 1) continue;
    const isDark = [0, 0.5, 1].every(
      (part) => geometricAltitude(sunWithinHour(sun, i, part).altitude_deg) < SUN_DOWN_DEG,
    );
    if (isDark) dark[i] = 1;
  }
  return dark;
}
