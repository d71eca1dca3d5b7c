import type { Glass } from './coverParams.ts';
import { fresnelReflectance } from './fresnelReflectance.ts';

/** What one flat cover does with unpolarised light. The first three add up to 1. */
export interface CoverOptics {
  transmittance: number;
  reflectance: number;
  absorptance: number;
  /** Transmittance by absorption alone, on one way through. */
  oneWay: number;
}

/**
 * Transmittance, reflectance and absorptance of one flat cover, without unit, all reflections between its two
 * surfaces counted.
 *
 * in: incidence_deg, from the normal, 0 to 90; cover
 * out: 0 to 1 each
 * source: DuffieBeckman2020, equations 5.2.1 to 5.3.3
 * @example coverTransmittance(60, { refractiveIndex: 1.526, absorption_per_m: 32, thickness_m: 0.0023 }).transmittance; // => 0.7683
 */
export function coverTransmittance(incidence_deg: number, cover: Glass): CoverOptics {
  const surface = fresnelReflectance(incidence_deg, cover.refractiveIndex);
  const oneWay = Math.exp(
    (-cover.absorption_per_m * cover.thickness_m) / Math.cos((surface.refraction_deg * Math.PI) / 180),
  );
  const optics: CoverOptics = { transmittance: 0, reflectance: 0, absorptance: 0, oneWay };
  for (const r of [surface.perpendicular, surface.parallel]) {
    const transmittance = (oneWay * (1 - r) ** 2) / (1 - (r * oneWay) ** 2);
    optics.transmittance += transmittance / 2;
    optics.reflectance += (r * (1 + oneWay * transmittance)) / 2;
    optics.absorptance += ((1 - oneWay) * (1 - r)) / (1 - r * oneWay) / 2;
  }
  return optics;
}
