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
 * Share of light that one surface of a clear cover throws back, without unit, in both polarisations.
 *
 * in: incidence_deg, from the normal, 0 to 90; refractiveIndex, above 1
 * out: 0 to 1 each, 1 at grazing incidence
 * source: DuffieBeckman2020, equations 5.1.1 to 5.1.4
 * @example fresnelReflectance(60, 1.526).perpendicular; // => 0.18548
 */
export function fresnelReflectance(incidence_deg: number, refractiveIndex: number): SurfaceReflectance {
  // a, b: angle outside and inside, radians
  const a = (incidence_deg * Math.PI) / 180;
  const b = Math.asin(Math.sin(a) / refractiveIndex);
  const cosA = Math.cos(a);
  const cosB = Math.cos(b);
  return {
    perpendicular: ((cosA - refractiveIndex * cosB) / (cosA + refractiveIndex * cosB)) ** 2,
    parallel: ((cosB - refractiveIndex * cosA) / (cosB + refractiveIndex * cosA)) ** 2,
    refraction_deg: (b * 180) / Math.PI,
  };
}
