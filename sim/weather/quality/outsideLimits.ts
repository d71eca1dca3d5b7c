import { HOUR_MS, utcText } from '../../common/time.ts';
import { highestPossible, LOWEST_IRRADIANCE_W_M2 } from '../limits.ts';
import type { IrradianceColumn } from '../WeatherRecord.ts';
import type { SunLight } from './SunLight.ts';
import type { Stretch } from './stretchesOf.ts';

/** Hours outside published limits, one byte an hour. */
export interface OutsideLimits {
  impossible: Uint8Array;
  /** Possible, but outside the extremely rare limits. */
  extremelyRare: Uint8Array;
}

/**
 * Hours in which an irradiance lies outside the physically possible or the extremely rare limits.
 *
 * in: column; values, W/m2, NaN missing; light, over the same hours
 * out: one byte an hour
 * valid: means of an hour with the sun at its middle, or at the middle of its sun-up part
 * source: LongDutton2002
 * departs: readings below zero are bounded by the largest offset of good sensors, not by -4 W/m2
 */
export function outsideLimits(
  column: IrradianceColumn,
  values: Float64Array,
  light: SunLight,
): OutsideLimits {
  const quantity = QUANTITY[column];
  const { sun } = light;
  const impossible = new Uint8Array(values.length);
  const extremelyRare = new Uint8Array(values.length);
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    const normal_W_m2 = sun.extraterrestrial_W_m2[i]!;
    // In sunrise hours the sun stands higher in its sun-up part than at mid-hour.
    const altitude_deg = Math.max(sun.altitude_deg[i]!, sun.upAltitude_deg[i]!);
    if (value < LOWEST_IRRADIANCE_W_M2 || value > highestPossible(quantity, normal_W_m2, altitude_deg)) {
      impossible[i] = 1;
    } else if (value > rarelyExceeded(quantity, normal_W_m2, altitude_deg)) extremelyRare[i] = 1;
  }
  return { impossible, extremelyRare };
}

const QUANTITY = { ghi_W_m2: 'ghi', dni_W_m2: 'dni', dhi_W_m2: 'dhi' } as const;

/**
 * Irradiance on the ground that is exceeded extremely rarely, in W/m2.
 *
 * in: quantity; extraterrestrial_W_m2 on a plane facing the sun; altitude_deg of the sun
 * out: W/m2
 * valid: for means of an hour with the sun at mid-hour; sunrise hours are covered by the constant
 * source: LongDutton2002, extremely rare limits
 * @example rarelyExceeded('dhi', 1000, -5); // => 30
 */
export function rarelyExceeded(
  quantity: 'ghi' | 'dni' | 'dhi',
  extraterrestrial_W_m2: number,
  altitude_deg: number,
): number {
  // mu: cosine of the zenith angle, 0 with the sun down
  const mu = Math.max(0, Math.sin((altitude_deg * Math.PI) / 180));
  if (quantity === 'ghi') return 1.2 * extraterrestrial_W_m2 * mu ** 1.2 + 50;
  return quantity === 'dhi'
    ? 0.75 * extraterrestrial_W_m2 * mu ** 1.2 + 30
    : 0.95 * extraterrestrial_W_m2 * mu ** 0.2 + 10;
}

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
