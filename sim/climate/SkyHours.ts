import { RADIANS } from '../common/constants.ts';
import { sin } from '../common/elementary/sin.ts';
import { clearnessShape, sunsetAngle } from '../sun/dayShape.ts';
import { CLEANEST_LINKE_TURBIDITY, ineichenClearSky } from '../sun/ineichenClearSky.ts';
import { type SunColumns, sunWithinHour } from '../sun/sunColumns.ts';
import { DAY_H } from './RecordedDays.ts';

const DEGREES_PER_HOUR = 15;

/** Instants an hour at which the sun is looked up. */
const LOOKS = 12;

/** What the sun allows at a place, hour by hour and day by day, before any weather. Days run from its start. */
export interface SkyHours {
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
  /** Hours from the start to the first and the highest sun of each day; where it stays down, 6 and 12 of the day. */
  sunrise_h: Float64Array;
  noon_h: Float64Array;
}

/**
 * What the sun allows, hour by hour: every quantity is averaged within the hour over instants five minutes apart.
 *
 * in: sun, over whole days; elevation_m; clearest, most of the light outside the air that ever comes through, as a
 *   share: below a sun of 5 degrees the clear-sky formula leaves its range and would let through more than there is
 * out: as described, W/m2 and Wh/m2
 * valid: days that begin near midnight by the sun; of 24 h of sun or none the turning points are nominal
 * source: IneichenPerez2002 for the bound, CollaresPereiraRabl1979 for the shape
 */
export function skyHours(sun: SunColumns, elevation_m: number, clearest: number): SkyHours {
  const hours = sun.count;
  const days = hours / DAY_H;
  const sky: SkyHours = {
    start_ms: sun.start_ms,
    extraterrestrial_W_m2: new Float64Array(hours),
    bound_W_m2: new Float64Array(hours),
    shape: new Float64Array(hours),
    sineAltitude: sun.upCosZenith,
    dailyExtraterrestrial_Wh_m2: new Float64Array(days),
    dailyBound_Wh_m2: new Float64Array(days),
    sunrise_h: Float64Array.from({ length: days }, (_, day) => day * DAY_H + 6),
    noon_h: Float64Array.from({ length: days }, (_, day) => day * DAY_H + 12),
  };
  const highest_deg = new Float64Array(days);
  for (let hour = 0; hour < hours; hour++) {
    if (sun.upShare[hour]! === 0) continue;
    const day = Math.floor(hour / DAY_H);
    const outside_W_m2 = sun.extraterrestrial_W_m2[hour]!;
    const sunset_deg = sunsetAngle(sun.declination_deg[hour]!, sun.latitude_deg);
    for (let look = 0; look < LOOKS; look++) {
      const part = (look + 0.5) / LOOKS;
      const { altitude_deg } = sunWithinHour(sun, hour, part);
      if (altitude_deg <= 0) continue;
      const flat_W_m2 = outside_W_m2 * sin(altitude_deg * RADIANS);
      const clear = ineichenClearSky(altitude_deg, outside_W_m2, elevation_m, CLEANEST_LINKE_TURBIDITY);
      const hourAngle_deg = sun.hourAngle_deg[hour]! + part * DEGREES_PER_HOUR;
      sky.extraterrestrial_W_m2[hour]! += flat_W_m2 / LOOKS;
      sky.bound_W_m2[hour]! += Math.min(clear.ghi_W_m2, clearest * flat_W_m2) / LOOKS;
      sky.shape[hour]! += (flat_W_m2 * clearnessShape(hourAngle_deg, sunset_deg)) / LOOKS;
      if (highest_deg[day] === 0) sky.sunrise_h[day] = hour + part;
      if (altitude_deg > highest_deg[day]!) {
        highest_deg[day] = altitude_deg;
        sky.noon_h[day] = hour + part;
      }
    }
    if (sky.extraterrestrial_W_m2[hour] === 0) continue;
    sky.shape[hour]! /= sky.extraterrestrial_W_m2[hour]!;
    sky.dailyExtraterrestrial_Wh_m2[day]! += sky.extraterrestrial_W_m2[hour]!;
    sky.dailyBound_Wh_m2[day]! += sky.bound_W_m2[hour]!;
  }
  return sky;
}
