import { exp } from '../common/elementary/exp.ts';
import { power } from '../common/elementary/power.ts';
import { sin } from '../common/elementary/sin.ts';
/** Irradiance of a cloudless sky. */
export interface ClearSky {
  /** On the flat ground. */
  ghi_W_m2: number;
  /** Straight from the sun, on a plane that faces it. */
  dni_W_m2: number;
}

/** Haze of ordinary clear days in a temperate country; common practice, no source. */
const USUAL_LINKE_TURBIDITY = 3;
/** Very clean, dry air: a bound that hardly any hour exceeds; common practice, no source. */
export const CLEANEST_LINKE_TURBIDITY = 2;

/**
 * Global and direct normal irradiance of a cloudless sky, in W/m2.
 *
 * in: altitude_deg, refracted; extraterrestrial_W_m2, on a plane facing the sun; elevation_m; linkeTurbidity, 1 to 10
 * out: W/m2, both 0 with the sun at or below the horizon
 * valid: sun above about 5 degrees, elevation to 3000 m; the haze is the main error, some 10 percent of the beam
 * source: IneichenPerez2002, equations 7 and 8; Perez2002 for the last factor of the global part
 * departs: the direct part is not also bounded by the global part
 */
export function ineichenClearSky(
  altitude_deg: number,
  extraterrestrial_W_m2: number,
  elevation_m: number,
  linkeTurbidity: number = USUAL_LINKE_TURBIDITY,
): ClearSky {
  if (!(altitude_deg > 0)) return { ghi_W_m2: 0, dni_W_m2: 0 };
  const cosZenith = sin((altitude_deg * Math.PI) / 180);
  // m: air mass; f1, f2: the paper's fh1, fh2; c1, c2: its cg1, cg2; b: its beam coefficient
  const m = relativeAirMass(altitude_deg);
  const f1 = exp(-elevation_m / 8000);
  const f2 = exp(-elevation_m / 1250);
  const c1 = 5.09e-5 * elevation_m + 0.868;
  const c2 = 3.92e-5 * elevation_m + 0.0387;
  const b = 0.664 + 0.163 / f1;
  const excess = linkeTurbidity - 1;
  return {
    ghi_W_m2:
      c1 * extraterrestrial_W_m2 * cosZenith * exp(-c2 * m * (f1 + f2 * excess)) * exp(0.01 * power(m, 1.8)),
    dni_W_m2: b * extraterrestrial_W_m2 * exp(-0.09 * m * excess),
  };
}

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
  return cosZenith > 0 ? 1098 * cosZenith * exp(-0.059 / cosZenith) : 0;
}

/**
 * Relative optical air mass, without unit: the way through the air over the way straight down, at sea level.
 *
 * in: altitude_deg, refracted altitude of the sun, 0 to 90
 * out: 1 at the zenith, about 38 at the horizon
 * NaN when: the altitude lies more than 6.07 degrees below the horizon
 * valid: above the horizon, within 0.5 percent of the table it was fitted to
 * source: KastenYoung1989, equation 3
 * @example relativeAirMass(30); // => 1.9943
 */
export function relativeAirMass(altitude_deg: number): number {
  return 1 / (sin((altitude_deg * Math.PI) / 180) + 0.50572 * power(altitude_deg + 6.07995, -1.6364));
}
