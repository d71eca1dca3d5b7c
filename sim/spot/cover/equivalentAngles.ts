/** Angles of incidence at which a cover passes as much beam as it passes of diffuse light. */
export interface EquivalentAngles {
  /** For even light of the sky. */
  sky_deg: number;
  /** For light from the ground. */
  ground_deg: number;
}

/**
 * Angles of incidence that stand for diffuse light on a tilted cover, in degrees.
 *
 * in: tilt_deg, 0 flat to 90 upright
 * out: degrees from the normal
 * source: BrandemuehlBeckman1980
 * @example equivalentAngles(45).sky_deg; // => 56.49
 */
export function equivalentAngles(tilt_deg: number): EquivalentAngles {
  return {
    sky_deg: 59.7 - 0.1388 * tilt_deg + 0.001497 * tilt_deg ** 2,
    ground_deg: 90 - 0.5788 * tilt_deg + 0.002693 * tilt_deg ** 2,
  };
}
