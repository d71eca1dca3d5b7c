import { relativeAirMass } from '../../sun/ineichenClearSky.ts';
import { PEREZ_BINS, PEREZ_COEFFICIENTS } from './perezCoefficients.ts';
import type { SkyParts } from './SkyParts.ts';

/**
 * The diffuse light of a sky in W/m2 by its clearness and brightness: a circumsolar part, a band at the horizon and
 * an even rest. A plane takes `circumsolar * cos(incidence) + even * sky share + band * sin(tilt)`.
 *
 * in: dhi_W_m2; dni_W_m2; extraterrestrial_W_m2, on a plane facing the sun; cosZenith, 0 to 1
 * out: parts with circumsolar * cosZenith + even = dhi
 * valid: open horizons of temperate places; below 5 degrees of sun the ring is held to its brightness at 5 degrees
 * source: Perez1990, equations 1 to 9
 * departs: below 5 degrees of sun what the ring then lacks stays in the even part, so that dhi is kept
 */
export function perezSky(
  dhi_W_m2: number,
  dni_W_m2: number,
  extraterrestrial_W_m2: number,
  cosZenith: number,
): SkyParts {
  if (!(dhi_W_m2 > 0)) return { circumsolar_W_m2: 0, even_W_m2: 0, band_W_m2: 0 };
  // z: zenith angle in radians; the other letters as in the paper
  const z = Math.acos(cosZenith);
  const k = 1.041 * z ** 3;
  const clearness = ((dhi_W_m2 + dni_W_m2) / dhi_W_m2 + k) / (1 + k);
  const airMass = relativeAirMass(90 - (z * 180) / Math.PI);
  const brightness = Math.min((dhi_W_m2 * airMass) / extraterrestrial_W_m2, 1);
  const bin = PEREZ_BINS.findIndex((from) => clearness < from);
  const [f11, f12, f13, f21, f22, f23] = PEREZ_COEFFICIENTS[bin < 0 ? PEREZ_BINS.length : bin]!;
  const ring = Math.min(Math.max(f11 + f12 * brightness + f13 * z, 0), 1);
  const band = f21 + f22 * brightness + f23 * z;
  const circumsolar_W_m2 = (dhi_W_m2 * ring) / Math.max(cosZenith, COSINE_AT_5_DEG);
  return {
    circumsolar_W_m2,
    even_W_m2: dhi_W_m2 - circumsolar_W_m2 * cosZenith,
    band_W_m2: dhi_W_m2 * band,
  };
}

const COSINE_AT_5_DEG = Math.sin((5 * Math.PI) / 180);
