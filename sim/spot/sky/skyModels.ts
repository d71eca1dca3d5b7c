import { acos } from '../../common/elementary/atan2.ts';
import { sin } from '../../common/elementary/sin.ts';
import { relativeAirMass } from '../../sun/ineichenClearSky.ts';
import type { SunColumns } from '../../sun/sunColumns.ts';

/** Diffuse light of the sky in parts. */
export interface SkyParts {
  /** Bright ring around the sun, as if it came straight from the sun, on a plane facing it. */
  circumsolar_W_m2: number;
  /** The rest, isotropic, on the flat open ground. */
  isotropic_W_m2: number;
  /** Band at the horizon, on an upright plane; negative where the sky darkens towards the horizon. */
  band_W_m2: number;
}

/**
 * The diffuse light of an evenly bright sky, in W/m2: no circumsolar part. The bound to hold `hayDaviesSky` against.
 *
 * in: dhi_W_m2
 * out: parts, all of it isotropic
 * source: LiuJordan1963
 * @example isotropicSky(80).isotropic_W_m2; // => 80
 */
export function isotropicSky(dhi_W_m2: number): SkyParts {
  return { circumsolar_W_m2: 0, isotropic_W_m2: dhi_W_m2, band_W_m2: 0 };
}

const COSINE_AT_5_DEG = sin((5 * Math.PI) / 180);

/** A ring of a share of the diffuse light, held below 5 degrees of sun to the brightness it has at 5 degrees. */
function withRing(dhi_W_m2: number, ring: number, band: number, cosZenith: number): SkyParts {
  const circumsolar_W_m2 = (dhi_W_m2 * ring) / Math.max(cosZenith, COSINE_AT_5_DEG);
  return {
    circumsolar_W_m2,
    isotropic_W_m2: dhi_W_m2 - circumsolar_W_m2 * cosZenith,
    band_W_m2: dhi_W_m2 * band,
  };
}

/**
 * The diffuse light of a sky that brightens around the sun, in W/m2: a circumsolar part and an isotropic rest.
 * A plane takes `circumsolar * cos(incidence) + isotropic * sky share`.
 *
 * in: dhi_W_m2; dni_W_m2; extraterrestrial_W_m2, on a plane facing the sun; cosZenith, 0 to 1
 * out: parts with circumsolar * cosZenith + isotropic = dhi
 * valid: planes of any tilt; some 5 percent low on clear skies, which also brighten at the horizon
 * source: HayDavies1980
 * departs: below 5 degrees of sun the ring is held to the brightness it has at 5 degrees, the rest staying isotropic
 */
export function hayDaviesSky(
  dhi_W_m2: number,
  dni_W_m2: number,
  extraterrestrial_W_m2: number,
  cosZenith: number,
): SkyParts {
  return withRing(dhi_W_m2, Math.min(dni_W_m2 / extraterrestrial_W_m2, 1), 0, cosZenith);
}

/**
 * Coefficients of the anisotropic sky by bins of its clearness, a row a bin: f11, f12, f13, f21, f22, f23.
 * source: Perez1990, table 6 (all sites), irradiance
 */
const PEREZ_COEFFICIENTS: readonly (readonly [number, number, number, number, number, number])[] = [
  [-0.008, 0.588, -0.062, -0.06, 0.072, -0.022],
  [0.13, 0.683, -0.151, -0.019, 0.066, -0.029],
  [0.33, 0.487, -0.221, 0.055, -0.064, -0.026],
  [0.568, 0.187, -0.295, 0.109, -0.152, -0.014],
  [0.873, -0.392, -0.362, 0.226, -0.462, 0.001],
  [1.132, -1.237, -0.412, 0.288, -0.823, 0.056],
  [1.06, -1.6, -0.359, 0.264, -1.127, 0.131],
  [0.678, -0.327, -0.25, 0.156, -1.377, 0.251],
];

/** Clearness at which each bin but the first begins. */
const PEREZ_BINS: readonly number[] = [1.065, 1.23, 1.5, 1.95, 2.8, 4.5, 6.2];

/**
 * The diffuse light of a sky in W/m2 by its clearness and brightness: a circumsolar part, a band at the horizon and
 * an isotropic rest. A plane takes `circumsolar * cos(incidence) + isotropic * sky share + band * sin(tilt)`.
 *
 * in: dhi_W_m2; dni_W_m2; extraterrestrial_W_m2, on a plane facing the sun; cosZenith, 0 to 1, or what follows from it
 * out: parts with circumsolar * cosZenith + isotropic = dhi
 * valid: open horizons of temperate places; below 5 degrees of sun the ring is held to its brightness at 5 degrees
 * source: Perez1990, equations 1 to 9
 * departs: below 5 degrees of sun what the ring then lacks stays in the isotropic part, so that dhi is kept
 */
export function perezSky(
  dhi_W_m2: number,
  dni_W_m2: number,
  extraterrestrial_W_m2: number,
  cosZenith: number,
  { z, k, airMass } = sunHeight(cosZenith),
): SkyParts {
  if (!(dhi_W_m2 > 0)) return isotropicSky(0);
  const clearness = ((dhi_W_m2 + dni_W_m2) / dhi_W_m2 + k) / (1 + k);
  const brightness = Math.min((dhi_W_m2 * airMass) / extraterrestrial_W_m2, 1);
  const bin = PEREZ_BINS.findIndex((from) => clearness < from);
  const [f11, f12, f13, f21, f22, f23] = PEREZ_COEFFICIENTS[bin < 0 ? PEREZ_BINS.length : bin]!;
  const ring = Math.min(Math.max(f11 + f12 * brightness + f13 * z, 0), 1);
  return withRing(dhi_W_m2, ring, f21 + f22 * brightness + f23 * z, cosZenith);
}

/** What the sun's height gives: z, the zenith angle in radians; the clearness constant k at it; the air mass. */
function sunHeight(cosZenith: number): { z: number; k: number; airMass: number } {
  const z = acos(cosZenith);
  return { z, k: 1.041 * z * z * z, airMass: relativeAirMass(90 - (z * 180) / Math.PI) };
}

/** Parts of the diffuse light of one hour; the direct light is that of its sun-up part. */
export type SkyModel = (hour: number, dhi_W_m2: number, dni_W_m2: number) => SkyParts;

/** Models of the diffuse sky by the name the scenario gives them, each for the hours of a sun. */
export const SKY_MODELS: Readonly<
  Record<'isotropic' | 'hay-davies' | 'perez', (sun: SunColumns) => SkyModel>
> = {
  isotropic: () => (_, dhi_W_m2) => isotropicSky(dhi_W_m2),
  'hay-davies': (sun) => (hour, dhi_W_m2, dni_W_m2) =>
    hayDaviesSky(dhi_W_m2, dni_W_m2, sun.extraterrestrial_W_m2[hour]!, sun.upCosZenith[hour]!),
  perez: (sun) => {
    const heights = Array.from(sun.upCosZenith, sunHeight);
    return (hour, dhi_W_m2, dni_W_m2) =>
      perezSky(dhi_W_m2, dni_W_m2, sun.extraterrestrial_W_m2[hour]!, sun.upCosZenith[hour]!, heights[hour]);
  },
};
