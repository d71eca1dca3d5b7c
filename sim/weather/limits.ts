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

/**
 * Highest irradiance that can physically be at a place on the ground, in W/m2. For telling faults, not clear skies.
 *
 * in: quantity; extraterrestrial_W_m2 on a plane facing the sun; altitude_deg of the sun
 * out: W/m2
 * valid: for means of an hour with the sun at mid-hour; sunrise hours are covered by the constant
 * source: LongDutton2002, physically possible limits
 * @example highestPossible('dhi', 1000, -5); // => 50
 */
export function highestPossible(
  quantity: 'ghi' | 'dni' | 'dhi',
  extraterrestrial_W_m2: number,
  altitude_deg: number,
): number {
  if (quantity === 'dni') return extraterrestrial_W_m2;
  // mu: cosine of the zenith angle, 0 with the sun down
  const mu = Math.max(0, Math.sin((altitude_deg * Math.PI) / 180));
  return quantity === 'ghi'
    ? 1.5 * extraterrestrial_W_m2 * mu ** 1.2 + 100
    : 0.95 * extraterrestrial_W_m2 * mu ** 1.2 + 50;
}
