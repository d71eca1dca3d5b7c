import { power } from '../common/elementary/power.ts';
import { sin } from '../common/elementary/sin.ts';
/**
 * Lowest irradiance in W/m2 that a sensor's offset explains. A pyranometer facing a cold clear sky reads below zero:
 * up to 15 W/m2 for class B instruments, the class of good networks (zero offset A). More is a missing code, a unit
 * or a fault.
 * source: ISO9060
 */
export const LOWEST_IRRADIANCE_W_M2 = -15;

/**
 * Highest irradiance in W/m2 that an offset explains while the sun is far down: the zero offset A of class A.
 * source: ISO9060
 */
export const HIGHEST_NIGHT_W_M2 = 7;

/** Altitude below which no light of the sun counts any more, degrees: the end of civil twilight. */
export const SUN_DOWN_DEG = -6;

/** What a column other than irradiance can hold, a little beyond the records of the world. source: WMOExtremes */
export const RANGES = {
  air_degC: { lowest: -90, highest: 60, unit: 'degC' },
  snowDepth_m: { lowest: 0, highest: 15, unit: 'm' },
  rain_mm: { lowest: 0, highest: 400, unit: 'mm' },
  wind_m_s: { lowest: 0, highest: 115, unit: 'm/s' },
} as const;

/** Share of the light outside the air, power of the cosine of the zenith angle, and W/m2 that are added. */
const BOUNDS = {
  possible: { ghi: [1.5, 1.2, 100], dni: [1, 0, 0], dhi: [0.95, 1.2, 50] },
  rare: { ghi: [1.2, 1.2, 50], dni: [0.95, 0.2, 10], dhi: [0.75, 1.2, 30] },
} as const;

/**
 * Highest irradiance that is physically possible on the ground, or that is exceeded extremely rarely, in W/m2. For
 * telling faults, not clear skies.
 *
 * in: bound; quantity; extraterrestrial_W_m2 on a plane facing the sun; altitude_deg of the sun
 * out: W/m2
 * valid: for means of an hour with the sun at mid-hour; sunrise hours are covered by the constant
 * source: LongDutton2002, physically possible and extremely rare limits
 * @example highestLight('possible', 'dhi', 1000, -5); // => 50
 */
export function highestLight(
  bound: keyof typeof BOUNDS,
  quantity: 'ghi' | 'dni' | 'dhi',
  extraterrestrial_W_m2: number,
  altitude_deg: number,
): number {
  const [share, exponent, more_W_m2] = BOUNDS[bound][quantity];
  // 0 with the sun down
  const cosZenith = Math.max(0, sin((altitude_deg * Math.PI) / 180));
  return share * extraterrestrial_W_m2 * power(cosZenith, exponent) + more_W_m2;
}
