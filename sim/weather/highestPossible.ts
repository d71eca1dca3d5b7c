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
