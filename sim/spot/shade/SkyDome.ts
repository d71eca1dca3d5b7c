/**
 * The sky as seen from the spot: how much light passes from each direction above the horizontal. Whatever stands
 * around the spot (a horizon profile now) is one of these.
 */
export interface SkyDome {
  /** Share of the light from a direction that reaches the spot, 0 (blocked) to 1 (open). Bearing 0 to 360. */
  transmittance(bearing_deg: number, elevation_deg: number): number;
}

/** A spot with nothing around it. */
export const OPEN_DOME: SkyDome = { transmittance: () => 1 };
