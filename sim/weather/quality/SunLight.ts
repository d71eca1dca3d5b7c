import { range } from 'd3-array';
import { RADIANS } from '../../common/constants.ts';
import { asin } from '../../common/elementary/atan2.ts';
import { cos, sin } from '../../common/elementary/sin.ts';
import { DAY_MS, HOUR_MS, sinceMidnight } from '../../common/time.ts';
import { CLEANEST_LINKE_TURBIDITY, ineichenClearSky } from '../../sun/ineichenClearSky.ts';
import type { Site } from '../../sun/Site.ts';
import { geometricAltitude } from '../../sun/solarPosition.ts';
import { type SunColumns, sunColumns } from '../../sun/sunColumns.ts';
import { SUN_DOWN_DEG } from '../limits.ts';
import { flagsOf, type Stretch } from './stretchesOf.ts';

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
  /** Days and months are counted by UTC plus this: see dayShift. */
  dayShift_ms: number;
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
  const { upShare, upCosZenith, extraterrestrial_W_m2: normal_W_m2 } = sun;
  const elevation_m = Math.max(site.elevation_m, 0);
  const outside_W_m2 = upShare.map((share, i) => normal_W_m2[i]! * upCosZenith[i]! * share);
  const cleanest_W_m2 = upShare.map((share, i) => {
    if (share === 0) return 0;
    const altitude_deg = (asin(upCosZenith[i]!) * 180) / Math.PI;
    return (
      share * ineichenClearSky(altitude_deg, normal_W_m2[i]!, elevation_m, CLEANEST_LINKE_TURBIDITY).ghi_W_m2
    );
  });
  const solarShift_ms = (site.longitude_deg / 360) * DAY_MS;
  return {
    sun,
    dark: darkHours(sun),
    outside_W_m2,
    cleanest_W_m2,
    solarShift_ms,
    dayShift_ms: dayShift(start_ms, solarShift_ms),
  };
}

/**
 * What days are ahead of UTC: the record's own first midnight where it lies within three hours of the sun's, so that
 * a year of a file is not cut a few hours from its ends; else the sun's mean time to the full hour.
 */
function dayShift(start_ms: number, solarShift_ms: number): number {
  const since = sinceMidnight(start_ms);
  const own_ms = since > DAY_MS / 2 ? DAY_MS - since : -since;
  const apart = Math.abs(own_ms - solarShift_ms);
  return Math.min(apart, DAY_MS - apart) <= 3 * HOUR_MS
    ? own_ms
    : Math.round(solarShift_ms / HOUR_MS) * HOUR_MS;
}

/** Hours in which the sun stays more than 6 degrees below the horizon, at both ends and in the middle, as 1; others 0. */
function darkHours({
  count,
  latitude_deg,
  declination_deg,
  hourAngle_deg,
  altitude_deg,
}: SunColumns): Uint8Array {
  const [sinLatitude, cosLatitude] = [sin(latitude_deg * RADIANS), cos(latitude_deg * RADIANS)];
  const sinDown = sin(SUN_DOWN_DEG * RADIANS);
  const isDown = flagsOf(count + 1, (i) => {
    const declination = declination_deg[i]! * RADIANS;
    const across = cosLatitude * cos(declination) * cos(hourAngle_deg[i]! * RADIANS);
    return sinLatitude * sin(declination) + across < sinDown;
  });
  return flagsOf(
    count,
    (i) => isDown[i]! + isDown[i + 1]! === 2 && geometricAltitude(altitude_deg[i]!) < SUN_DOWN_DEG,
  );
}

/** Hours of each day of a record; the first and the last may be short. */
export function daysOf({ sun: { start_ms, count }, dayShift_ms }: SunLight): Stretch[] {
  const first = 24 - Math.floor(sinceMidnight(start_ms + dayShift_ms) / HOUR_MS);
  return range(first - 24, count, 24).map((from) => ({
    from: Math.max(0, from),
    to: Math.min(count, from + 24),
  }));
}

/** A month of a record: its hours, from the first to the last that the record holds. */
export interface Month extends Stretch {
  /** 'YYYY-MM'. */
  month: string;
}

/** The months of a record, by the same midnights as its days. */
export function monthsOf({ sun: { start_ms, count }, dayShift_ms }: SunLight): Month[] {
  const months: Month[] = [];
  for (let from = 0; from < count; from = months.at(-1)!.to) {
    const date = new Date(start_ms + dayShift_ms + from * HOUR_MS);
    const next_ms = Date.UTC(date.getUTCFullYear(), date.getUTCMonth() + 1, 1);
    const to = Math.min(count, from + Math.ceil((next_ms - date.getTime()) / HOUR_MS));
    months.push({ month: date.toISOString().slice(0, 7), from, to });
  }
  return months;
}
