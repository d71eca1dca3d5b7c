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
