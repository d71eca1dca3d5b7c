import { asin } from '../../common/elementary/atan2.ts';
import { exp } from '../../common/elementary/exp.ts';
import { cos, sin } from '../../common/elementary/sin.ts';
import { square } from '../../common/numeric.ts';
import type { Glass } from './coverParams.ts';

/** Reflection at one smooth surface between air and a clear solid. */
export interface SurfaceReflectance {
  /** Light swinging across the plane of incidence, 0 to 1. */
  perpendicular: number;
  /** Light swinging in the plane of incidence, 0 to 1. */
  parallel: number;
  /** Angle inside the solid from the normal. */
  refraction_deg: number;
}

/**
 * Share of light that one surface of a clear cover reflects, without unit, in both polarisations.
 *
 * in: incidence_deg, from the normal, 0 to 90; refractiveIndex, above 1
 * out: 0 to 1 each, 1 at grazing incidence
 * source: DuffieBeckman2020, equations 5.1.1 to 5.1.4
 * @example fresnelReflectance(60, 1.526).perpendicular; // => 0.18548
 */
export function fresnelReflectance(incidence_deg: number, refractiveIndex: number): SurfaceReflectance {
  // a, b: angle outside and inside, radians
  const a = (incidence_deg * Math.PI) / 180;
  const b = asin(sin(a) / refractiveIndex);
  const cosA = cos(a);
  const cosB = cos(b);
  return {
    perpendicular: square((cosA - refractiveIndex * cosB) / (cosA + refractiveIndex * cosB)),
    parallel: square((cosB - refractiveIndex * cosA) / (cosB + refractiveIndex * cosA)),
    refraction_deg: (b * 180) / Math.PI,
  };
}

/** Transmittance by absorption alone, on one way through. */
function absorptionTransmittance(refraction_deg: number, { absorption_per_m, thickness_m }: Glass): number {
  return exp((-absorption_per_m * thickness_m) / cos((refraction_deg * Math.PI) / 180));
}

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
  const oneWay = absorptionTransmittance(surface.refraction_deg, cover);
  const optics: CoverOptics = { transmittance: 0, reflectance: 0, absorptance: 0, oneWay };
  for (const r of [surface.perpendicular, surface.parallel]) {
    // Along the surface, where the sums of a cover that absorbs nothing are 0 over 0.
    if (r === 1) {
      optics.reflectance += 1 / 2;
      continue;
    }
    const transmittance = (oneWay * square(1 - r)) / (1 - square(r * oneWay));
    optics.transmittance += transmittance / 2;
    optics.reflectance += (r * (1 + oneWay * transmittance)) / 2;
    optics.absorptance += ((1 - oneWay) * (1 - r)) / (1 - r * oneWay) / 2;
  }
  return optics;
}

/**
 * Transmittance of a clear layer cast onto the cell, without unit: one reflecting surface only, and absorption on the
 * way down.
 *
 * in: incidence_deg, from the normal, 0 to 90; resin
 * out: 0 to 1
 * valid: resin and cell of about the same refractive index, so that nothing is reflected between them
 * source: DeSoto2006, equation 9 (Fresnel and absorption at one surface)
 * @example resinTransmittance(0, { refractiveIndex: 1.526, absorption_per_m: 4, thickness_m: 0.002 }); // => 0.94902
 */
export function resinTransmittance(incidence_deg: number, resin: Glass): number {
  const surface = fresnelReflectance(incidence_deg, resin.refractiveIndex);
  return (
    absorptionTransmittance(surface.refraction_deg, resin) *
    (1 - (surface.perpendicular + surface.parallel) / 2)
  );
}
