/** Diffuse light of the sky in two parts. */
export interface SkyParts {
  /** Bright ring around the sun, as if it came straight from the sun, on a plane facing it. */
  circumsolar_W_m2: number;
  /** The rest, even over the whole sky, on the flat open ground. */
  even_W_m2: number;
}
