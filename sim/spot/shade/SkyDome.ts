/** What a screen hides along one bearing: elevations from `from_deg` to below `to_deg`. */
export interface Span {
  from_deg: number;
  to_deg: number;
  /** Share of the light that passes, 0 (shut) to 1. */
  transmittance: number;
  /** Bearing the lit side looks at; straight back to the spot where not given. */
  faces_deg?: number;
}

/** Something that stands between the spot and the sky. */
export interface Screen {
  name: string;
  /** House, hedge, crown, ... in a word. */
  kind: string;
  /** To its nearest point; what stands nearer hides what stands behind. */
  distance_m: number;
  /** Bearing of its middle; undefined where it goes all around. */
  middle_deg: number | undefined;
  /** Share of light it returns; undefined: the site's albedo. */
  reflectance: number | undefined;
  /** What it hides at a bearing of 0 to 360. */
  span(bearing_deg: number): Span | undefined;
}

/** The sky as seen from the spot: how much light passes from each direction above the horizontal. */
export interface SkyDome {
  /** Nearest first. */
  screens: readonly Screen[];
  /** Share of the light from a direction that reaches the spot, 0 (blocked) to 1 (open). Bearing 0 to 360. */
  transmittance(bearing_deg: number, elevation_deg: number): number;
}

/** A spot with nothing around it. */
export const OPEN_DOME: SkyDome = { screens: [], transmittance: () => 1 };
