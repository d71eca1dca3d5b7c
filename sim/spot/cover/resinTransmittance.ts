import type { Glass } from './coverParams.ts';
import { fresnelReflectance } from './fresnelReflectance.ts';

/**
 * Transmittance of a clear layer cast onto the cell, without unit: one reflecting surface only, and absorption on the
 * way down.
 *
 * in: incidence_deg, from the normal, 0 to 90; resin
 * out: 0 to 1
 * valid: resin and cell of about the same refractive index, so that nothing is thrown back between them
 * source: DeSoto2006, equation 9 (Fresnel and absorption at one surface)
 * @example resinTransmittance(0, { refractiveIndex: 1.526, absorption_per_m: 4, thickness_m: 0.002 }); // => 0.94902
 */
export function resinTransmittance(incidence_deg: number, resin: Glass): number {
  const surface = fresnelReflectance(incidence_deg, resin.refractiveIndex);
  const down = Math.exp(
    (-resin.absorption_per_m * resin.thickness_m) / Math.cos((surface.refraction_deg * Math.PI) / 180),
  );
  return down * (1 - (surface.perpendicular + surface.parallel) / 2);
}
