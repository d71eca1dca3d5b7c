/**
 * Diffuse share of the global irradiance, without unit, from the hour's clearness index.
 *
 * in: clearnessIndex, global irradiance over that outside the air on the flat ground, 0 and more
 * out: 0.165 to 1
 * valid: hourly values; the single hour scatters by 0.1 to 0.2 around it
 * source: Erbs1982, equation 1
 * @example splitGlobal(0.5); // => 0.6591
 */
export function splitGlobal(clearnessIndex: number): number {
  // k: clearness index
  const k = clearnessIndex;
  if (k <= 0.22) return 1 - 0.09 * Math.max(k, 0);
  if (k > 0.8) return 0.165;
  return 0.9511 + k * (-0.1604 + k * (4.388 + k * (-16.638 + k * 12.336)));
}
