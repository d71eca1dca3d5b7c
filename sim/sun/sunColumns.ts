import { RADIANS } from '../common/constants.ts';
import { asin, atan2 } from '../common/elementary/atan2.ts';
import { cos, sin } from '../common/elementary/sin.ts';
import { dayOfYear, HOUR_MS } from '../common/time.ts';
import { extraterrestrialNormal } from './extraterrestrialNormal.ts';
import type { Site } from './Site.ts';
import {
  apparentAltitude,
  geometricAltitude,
  type SolarPosition,
  solarPosition,
  sunFromHourAngle,
} from './solarPosition.ts';

/**
 * The sun over a stretch of hours at a site, one typed column a quantity. Row i covers
 * [start_ms + i * 3600 s, + 3600 s). The sun counts as up while its refracted centre is above the horizontal.
 */
export interface SunColumns {
  start_ms: number;
  count: number;
  latitude_deg: number;
  longitude_deg: number;
  /** count + 1 values, at the bounds of the hours. */
  declination_deg: Float64Array;
  /** count + 1 values, at the bounds of the hours; 0 at solar noon, afternoon positive, -180 to 180. */
  hourAngle_deg: Float64Array;
  /** Share of the hour in which the sun is up, 0 to 1. */
  upShare: Float64Array;
  /** Mean cosine of the zenith angle over the sun-up part; 0 where the sun is down. */
  upCosZenith: Float64Array;
  /** Refracted altitude at the middle of the sun-up part; 0 where the sun is down. */
  upAltitude_deg: Float64Array;
  /** Azimuth at the middle of the sun-up part; 0 where the sun is down. */
  upAzimuth_deg: Float64Array;
  /** Refracted altitude at mid-hour, also below the horizon. */
  altitude_deg: Float64Array;
  /** Azimuth at mid-hour, clockwise from north. */
  azimuth_deg: Float64Array;
  /** Irradiance outside the air on a plane facing the sun, at mid-hour. */
  extraterrestrial_W_m2: Float64Array;
}

/**
 * The sun over a stretch of hours at a site: cosines averaged over the sun-up part, so that the hours of sunrise and
 * sunset leak no beam.
 *
 * in: start_ms, start of the first hour, UTC milliseconds; count, hours; site
 * out: typed columns
 * valid: 1900 to 2150, any latitude; sunrise within the hour to a few seconds
 * source: Meeus1998 through `solarPosition`; Spencer1971
 */
export function sunColumns(
  start_ms: number,
  count: number,
  site: Pick<Site, 'latitude_deg' | 'longitude_deg'>,
): SunColumns {
  const column = () => new Float64Array(count);
  const sun: SunColumns = {
    start_ms,
    count,
    latitude_deg: site.latitude_deg,
    longitude_deg: site.longitude_deg,
    declination_deg: new Float64Array(count + 1),
    hourAngle_deg: new Float64Array(count + 1),
    upShare: column(),
    upCosZenith: column(),
    upAltitude_deg: column(),
    upAzimuth_deg: column(),
    altitude_deg: column(),
    azimuth_deg: column(),
    extraterrestrial_W_m2: column(),
  };
  equatorialInto(sun, site);
  for (let i = 0; i < count; i++) {
    const middle = sunWithinHour(sun, i, 0.5);
    sun.altitude_deg[i] = middle.altitude_deg;
    sun.azimuth_deg[i] = middle.azimuth_deg;
    sun.extraterrestrial_W_m2[i] = extraterrestrialNormal(dayOfYear(start_ms + (i + 0.5) * HOUR_MS));
    // In an hour the sun climbs at most 15 degrees.
    if (middle.altitude_deg > -8) sunUpPartInto(sun, i);
  }
  return sun;
}

/** Declination and hour angle at the bounds of the hours, turned back from the position seen at the site. */
function equatorialInto(sun: SunColumns, site: Pick<Site, 'latitude_deg' | 'longitude_deg'>): void {
  const sinLatitude = sin(site.latitude_deg * RADIANS);
  const cosLatitude = cos(site.latitude_deg * RADIANS);
  for (let i = 0; i <= sun.count; i++) {
    const seen = solarPosition(sun.start_ms + i * HOUR_MS, site.latitude_deg, site.longitude_deg);
    const altitude = geometricAltitude(seen.altitude_deg) * RADIANS;
    const azimuth = seen.azimuth_deg * RADIANS;
    const up = sin(altitude);
    const north = cos(altitude) * cos(azimuth);
    const east = cos(altitude) * sin(azimuth);
    sun.declination_deg[i] = asin(up * sinLatitude + north * cosLatitude) / RADIANS;
    sun.hourAngle_deg[i] = atan2(-east, up * cosLatitude - north * sinLatitude) / RADIANS;
  }
}

const UP_PARTS = 12;

/**
 * Share, mean cosine and middle of the sun-up part of hour i, by trapezia of 5 minutes cut at the horizon. The sine of
 * the altitude is a + b times the cosine of the hour angle; a and b, of declination and latitude, are taken as linear
 * within the hour, which is exact to 1e-8.
 */
function sunUpPartInto(sun: SunColumns, i: number): void {
  const a = sin(sun.latitude_deg * RADIANS) * sin(sun.declination_deg[i]! * RADIANS);
  const b = cos(sun.latitude_deg * RADIANS) * cos(sun.declination_deg[i]! * RADIANS);
  const aTurn = sin(sun.latitude_deg * RADIANS) * sin(sun.declination_deg[i + 1]! * RADIANS) - a;
  const bTurn = cos(sun.latitude_deg * RADIANS) * cos(sun.declination_deg[i + 1]! * RADIANS) - b;
  const hourAngle_deg = sun.hourAngle_deg[i]!;
  const turn_deg = (sun.hourAngle_deg[i + 1]! - hourAngle_deg + 360) % 360;
  const altitudeAt = (part: number): number => {
    const along = cos((hourAngle_deg + part * turn_deg) * RADIANS);
    const sine = a + part * aTurn + (b + part * bTurn) * along;
    return apparentAltitude(asin(Math.max(-1, Math.min(1, sine))) / RADIANS);
  };
  let share = 0;
  let cosine = 0;
  let moment = 0;
  let before_deg = altitudeAt(0);
  let beforeSine = sin(Math.max(before_deg, 0) * RADIANS);
  for (let k = 1; k <= UP_PARTS; k++) {
    const after_deg = altitudeAt(k / UP_PARTS);
    const afterSine = sin(Math.max(after_deg, 0) * RADIANS);
    // from, to: bounds of the sun-up piece of this part, as shares of the hour
    let from = (k - 1) / UP_PARTS;
    let to = k / UP_PARTS;
    if (before_deg > 0 || after_deg > 0) {
      const crossing = from + before_deg / (before_deg - after_deg) / UP_PARTS;
      if (before_deg <= 0) from = crossing;
      else if (after_deg <= 0) to = crossing;
      share += to - from;
      cosine += ((to - from) * (beforeSine + afterSine)) / 2;
      moment += ((to - from) * (from + to)) / 2;
    }
    before_deg = after_deg;
    beforeSine = afterSine;
  }
  if (share <= 0) return;
  const middle = sunWithinHour(sun, i, moment / share);
  sun.upShare[i] = Math.min(share, 1);
  sun.upCosZenith[i] = cosine / share;
  sun.upAltitude_deg[i] = Math.max(middle.altitude_deg, 0);
  sun.upAzimuth_deg[i] = middle.azimuth_deg;
}

/**
 * Where the sun's centre stands at a moment inside an hour of the columns, in degrees, refracted.
 * Declination and hour angle are taken as linear between the bounds of the hour.
 *
 * in: sun; hour, row of the columns; fraction, moment within the hour, 0 to 1
 * out: refracted altitude and azimuth clockwise from north, degrees
 * valid: within 0.001 degrees of `solarPosition`
 */
export function sunWithinHour(sun: SunColumns, hour: number, fraction: number): SolarPosition {
  const declination_deg = sun.declination_deg[hour]!;
  const hourAngle_deg = sun.hourAngle_deg[hour]!;
  const turn_deg = sun.hourAngle_deg[hour + 1]! - hourAngle_deg;
  const position = sunFromHourAngle(
    declination_deg + fraction * (sun.declination_deg[hour + 1]! - declination_deg),
    hourAngle_deg + fraction * (turn_deg < 0 ? turn_deg + 360 : turn_deg),
    sun.latitude_deg,
  );
  position.altitude_deg = apparentAltitude(position.altitude_deg);
  return position;
}
