/** Diffuse light of the sky in parts. */
export interface SkyParts {
  /** Bright ring around the sun, as if it came straight from the sun, on a plane facing it. */
  circumsolar_W_m2: number;
  /** The rest, even over the whole sky, on the flat open ground. */
  even_W_m2: number;
  /** Band at the horizon, on an upright plane; negative where the sky darkens towards the horizon. */
  band_W_m2: number;
}
