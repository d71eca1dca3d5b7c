import { HOUR_MS, utcText } from '../../common/time.ts';
import type { SunLight } from './SunLight.ts';
import type { Stretch } from './stretchesOf.ts';

/**
 * The flagged value farthest from zero, with its hour and the height of the sun, in words.
 *
 * in: values, W/m2; flags, one byte an hour; light, over the same hours; stretch to look in (all by default)
 * out: words; '' where nothing is flagged
 */
export function extremeOf(
  values: Float64Array,
  flags: Uint8Array,
  light: SunLight,
  stretch: Stretch = { from: 0, to: values.length },
): string {
  let at = -1;
  for (let i = stretch.from; i < stretch.to; i++) {
    if (flags[i] === 1 && (at < 0 || Math.abs(values[i]!) > Math.abs(values[at]!))) at = i;
  }
  if (at < 0) return '';
  const value = Math.round(values[at]! * 10) / 10 + 0;
  const altitude = Math.round(light.sun.altitude_deg[at]!) + 0;
  return `${value} W/m2 in the hour from ${utcText(light.sun.start_ms + at * HOUR_MS)} with the sun at ${altitude} degrees`;
}
