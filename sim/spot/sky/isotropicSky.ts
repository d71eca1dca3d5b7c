import type { SkyParts } from './SkyParts.ts';

/**
 * The diffuse light of an evenly bright sky, in W/m2: no circumsolar part. The bound to hold `hayDaviesSky` against.
 *
 * in: dhi_W_m2
 * out: parts, all of it even
 * source: LiuJordan1963
 * @example isotropicSky(80).even_W_m2; // => 80
 */
export function isotropicSky(dhi_W_m2: number): SkyParts {
  return { circumsolar_W_m2: 0, even_W_m2: dhi_W_m2, band_W_m2: 0 };
}
