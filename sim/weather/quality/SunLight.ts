import { CLEANEST_LINKE_TURBIDITY, ineichenClearSky } from '../../sun/ineichenClearSky.ts';
import type { Site } from '../../sun/Site.ts';
import { type SunColumns, sunColumns } from '../../sun/sunColumns.ts';
import { darkHours } from './darkHours.ts';

/** What every check of an hourly column needs of the sun, over the same hours. */
export interface SunLight {
  sun: SunColumns;
  /** 1 where the sun is more than 6 degrees below the horizon throughout. */
  dark: Uint8Array;
  /** Outside the air on the flat, mean over the hour. */
  outside_W_m2: Float64Array;
  /** Global irradiance of a cloudless sky of the cleanest air, mean over the hour. */
  cleanest_W_m2: Float64Array;
  /** Local mean solar time is UTC plus this. */
  solarShift_ms: number;
}

/**
 * The sun over the hours of a record, with the light it can send, in W/m2.
 *
 * in: start_ms, start of the first hour, UTC milliseconds; count, hours; site
 * out: typed columns
 * source: Spencer1971; IneichenPerez2002
 */
export function sunLight(
  start_ms: number,
  count: number,
  site: Pick<Site, 'latitude_deg' | 'longitude_deg' | 'elevation_m'>,
): SunLight {
  const sun = sunColumns(start_ms, count, site);
  const outside_W_m2 = new Float64Array(count);
  const cleanest_W_m2 = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const share = sun.upShare[i]!;
    if (share === 0) continue;
    const normal_W_m2 = sun.extraterrestrial_W_m2[i]!;
    const altitude_deg = (Math.asin(sun.upCosZenith[i]!) * 180) / Math.PI;
    outside_W_m2[i] = normal_W_m2 * sun.upCosZenith[i]! * share;
    cleanest_W_m2[i] =
      share *
      ineichenClearSky(altitude_deg, normal_W_m2, Math.max(site.elevation_m, 0), CLEANEST_LINKE_TURBIDITY)
        .ghi_W_m2;
  }
  return {
    sun,
    dark: darkHours(sun),
    outside_W_m2,
    cleanest_W_m2,
    solarShift_ms: (site.longitude_deg / 360) * 86_400_000,
  };
}
