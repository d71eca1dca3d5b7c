/** Global, direct and diffuse irradiance of one hour, means over the hour; NaN where not known. */
export interface Components {
  ghi_W_m2: number;
  dni_W_m2: number;
  dhi_W_m2: number;
}

/**
 * The third of global, direct normal and diffuse irradiance from the other two, in W/m2. Nothing comes out negative:
 * a global value stands, and what the other two would overshoot it by is cut from the one that was not measured.
 *
 * in: known, means over the hour, exactly one of them NaN; cosZenith, mean over the sun-up part, above 0
 * out: all three, with ghi = dhi + dni * cosZenith unless a measured part alone exceeds the global value
 * source: ISO9488, definition of global irradiance
 * @example closeComponents({ ghi_W_m2: 500, dni_W_m2: NaN, dhi_W_m2: 100 }, 0.5).dni_W_m2; // => 800
 */
export function closeComponents(known: Components, cosZenith: number): Components {
  const { ghi_W_m2, dni_W_m2, dhi_W_m2 } = known;
  if (Number.isNaN(ghi_W_m2)) return { ghi_W_m2: dhi_W_m2 + dni_W_m2 * cosZenith, dni_W_m2, dhi_W_m2 };
  if (Number.isNaN(dni_W_m2)) {
    const diffuse_W_m2 = Math.min(dhi_W_m2, ghi_W_m2);
    return { ghi_W_m2, dni_W_m2: (ghi_W_m2 - diffuse_W_m2) / cosZenith, dhi_W_m2: diffuse_W_m2 };
  }
  const direct_W_m2 = Math.min(dni_W_m2, ghi_W_m2 / cosZenith);
  return { ghi_W_m2, dni_W_m2: direct_W_m2, dhi_W_m2: ghi_W_m2 - direct_W_m2 * cosZenith };
}
