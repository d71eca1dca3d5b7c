/**
 * Relative optical air mass, without unit: the way through the air over the way straight down, at sea level.
 *
 * in: altitude_deg, refracted altitude of the sun, 0 to 90
 * out: 1 at the zenith, about 38 at the horizon
 * NaN when: the altitude lies more than 6.07 degrees below the horizon
 * valid: above the horizon, within 0.5 percent of the table it was fitted to
 * source: KastenYoung1989, equation 3
 * @example relativeAirMass(30); // => 1.9943
 */
export function relativeAirMass(altitude_deg: number): number {
  return 1 / (Math.sin((altitude_deg * Math.PI) / 180) + 0.50572 * (altitude_deg + 6.07995) ** -1.6364);
}
