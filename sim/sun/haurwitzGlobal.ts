/**
 * Global irradiance of a cloudless sky on the flat ground, in W/m2, from the sun's height alone.
 * A second opinion beside `ineichenClearSky`; it knows neither place nor haze.
 *
 * in: cosZenith, -1 to 1
 * out: W/m2, 0 with the sun at or below the horizon
 * valid: 10 percent, worse below 15 degrees
 * source: Haurwitz1945
 * @example haurwitzGlobal(0.5); // => 487.89
 */
export function haurwitzGlobal(cosZenith: number): number {
  return cosZenith > 0 ? 1098 * cosZenith * Math.exp(-0.059 / cosZenith) : 0;
}
