import { clearnessShape, sunsetAngle } from '../../sim/sun/dayShape.ts';
import { CLEANEST_LINKE_TURBIDITY, ineichenClearSky } from '../../sim/sun/ineichenClearSky.ts';
import type { Site } from '../../sim/sun/Site.ts';
import { sunColumns, sunWithinHour } from '../../sim/sun/sunColumns.ts';

const DEGREE = Math.PI / 180;
const DAY_H = 24;
const DEGREES_PER_HOUR = 15;

/** Instants an hour at which the sun is looked up. */
const LOOKS = 12;

/**
 * Clearest air, as a share of the light outside it, that the bound allows. An assumption: below a sun of 5 degrees
 * the clear-sky formula leaves its range and would let through more than there is.
 */
const CLEAREST_SHARE = 0.75;

/** What the sun allows at a place, hour by hour and day by day, before any weather. Days run from 0 h UTC. */
export interface SunHours {
  start_ms: number;
  /** Mean over the hour on the horizontal, outside the atmosphere. */
  extraterrestrial_W_m2: Float64Array;
  /** Mean over the hour under the cleanest sky. */
  bound_W_m2: Float64Array;
  /** Usual ratio of the hour's to the day's clearness, weighted by the extraterrestrial light within the hour. */
  shape: Float64Array;
  /** Sine of the sun's altitude, mean over the part of the hour with the sun up. */
  sineAltitude: Float64Array;
  /** One a day. */
  dailyExtraterrestrial_Wh_m2: Float64Array;
  dailyBound_Wh_m2: Float64Array;
  /** Hours from the start to the first and the highest sun of each day. */
  sunrise_h: Float64Array;
  noon_h: Float64Array;
}

/**
 * What the sun allows, hour by hour: every quantity is averaged within the hour over instants five minutes apart.
 *
 * in: site; start_ms, 0 h UTC of the first day; days, how many
 * out: as described, W/m2 and Wh/m2
 * valid: sunrise every day, and daylight within the UTC day, so longitudes up to about 45 degrees
 * source: IneichenPerez2002 for the bound, CollaresPereiraRabl1979 for the shape
 */
export function sunHours(
  site: Pick<Site, 'latitude_deg' | 'longitude_deg' | 'elevation_m'>,
  start_ms: number,
  days: number,
): SunHours {
  const hours = days * DAY_H;
  const sky = sunColumns(start_ms, hours, site);
  const sun: SunHours = {
    start_ms,
    extraterrestrial_W_m2: new Float64Array(hours),
    bound_W_m2: new Float64Array(hours),
    shape: new Float64Array(hours),
    sineAltitude: sky.upCosZenith,
    dailyExtraterrestrial_Wh_m2: new Float64Array(days),
    dailyBound_Wh_m2: new Float64Array(days),
    sunrise_h: new Float64Array(days).fill(Number.NaN),
    noon_h: new Float64Array(days),
  };
  const highest_deg = new Float64Array(days);
  for (let hour = 0; hour < hours; hour++) {
    if (sky.upShare[hour]! === 0) continue;
    const day = Math.floor(hour / DAY_H);
    const outside_W_m2 = sky.extraterrestrial_W_m2[hour]!;
    const sunset_deg = sunsetAngle(sky.declination_deg[hour]!, site.latitude_deg);
    for (let look = 0; look < LOOKS; look++) {
      const part = (look + 0.5) / LOOKS;
      const { altitude_deg } = sunWithinHour(sky, hour, part);
      if (altitude_deg <= 0) continue;
      const flat_W_m2 = outside_W_m2 * Math.sin(altitude_deg * DEGREE);
      const clear = ineichenClearSky(altitude_deg, outside_W_m2, site.elevation_m, CLEANEST_LINKE_TURBIDITY);
      const hourAngle_deg = sky.hourAngle_deg[hour]! + part * DEGREES_PER_HOUR;
      sun.extraterrestrial_W_m2[hour]! += flat_W_m2 / LOOKS;
      sun.bound_W_m2[hour]! += Math.min(clear.ghi_W_m2, CLEAREST_SHARE * flat_W_m2) / LOOKS;
      sun.shape[hour]! += (flat_W_m2 * clearnessShape(hourAngle_deg, sunset_deg)) / LOOKS;
      if (Number.isNaN(sun.sunrise_h[day]!)) sun.sunrise_h[day] = hour + part;
      if (altitude_deg > highest_deg[day]!) {
        highest_deg[day] = altitude_deg;
        sun.noon_h[day] = hour + part;
      }
    }
    if (sun.extraterrestrial_W_m2[hour] === 0) continue;
    sun.shape[hour]! /= sun.extraterrestrial_W_m2[hour]!;
    sun.dailyExtraterrestrial_Wh_m2[day]! += sun.extraterrestrial_W_m2[hour]!;
    sun.dailyBound_Wh_m2[day]! += sun.bound_W_m2[hour]!;
  }
  return sun;
}
