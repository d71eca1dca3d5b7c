import type { SkyParts } from './SkyParts.ts';

/**
 * The diffuse light of a sky that brightens around the sun, in W/m2: a circumsolar part and an even rest.
 * A plane takes `circumsolar * cos(incidence) + even * sky share`.
 *
 * in: dhi_W_m2; dni_W_m2; extraterrestrial_W_m2, on a plane facing the sun; cosZenith, 0 to 1
 * out: parts with circumsolar * cosZenith + even = dhi
 * valid: planes of any tilt; some 5 percent low on clear skies, which also brighten at the horizon
 * source: HayDavies1980
 * departs: below 5 degrees of sun the ring is held to the brightness it has at 5 degrees, the rest staying even
 */
export function hayDaviesSky(
  dhi_W_m2: number,
  dni_W_m2: number,
  extraterrestrial_W_m2: number,
  cosZenith: number,
): SkyParts {
  const anisotropy = Math.min(dni_W_m2 / extraterrestrial_W_m2, 1);
  const circumsolar_W_m2 = (anisotropy * dhi_W_m2) / Math.max(cosZenith, COSINE_AT_5_DEG);
  return { circumsolar_W_m2, even_W_m2: dhi_W_m2 - circumsolar_W_m2 * cosZenith, band_W_m2: 0 };
}

const COSINE_AT_5_DEG = Math.sin((5 * Math.PI) / 180);
