import { getPosition } from 'suncalc';
import { RADIANS } from '../common/constants.ts';
import { atan2 } from '../common/elementary/atan2.ts';
import { cos, sin, tan } from '../common/elementary/sin.ts';

/** 1.02 arc minutes, to the digits with which the package suncalc holds it, so that the two invert exactly. */
const REFRACTION_DEG = 0.0002967 / RADIANS;

/** Where the sun's centre stands. */
export interface SolarPosition {
  /** Altitude above the horizontal, refracted. */
  altitude_deg: number;
  /** Clockwise from true north, 0 to 360. */
  azimuth_deg: number;
}

/**
 * Position of the sun's centre as seen from the ground, in degrees, refraction included.
 * Below the horizon the refraction of the horizon itself (0.48 degrees) stays added, so a crossing of a negative
 * altitude is found with `geometricAltitude`.
 *
 * in: ms, UTC milliseconds; latitude_deg, north positive, -90 to 90; longitude_deg, east positive, -180 to 180
 * out: refracted altitude and azimuth clockwise from north, degrees
 * valid: 1900 to 2150, within 0.02 degrees
 * source: Meeus1998, chapters 13, 16, 25, through the package suncalc
 */
export function solarPosition(ms: number, latitude_deg: number, longitude_deg: number): SolarPosition {
  const position = getPosition(new Date(ms), latitude_deg, longitude_deg);
  return { altitude_deg: position.altitude, azimuth_deg: position.azimuth };
}

/**
 * Altitude of the sun as seen through the air, in degrees, from its geometric altitude.
 * The same refraction as `solarPosition` adds: below the horizon that of the horizon itself.
 *
 * in: geometric_deg, -90 to 90
 * out: refracted altitude, degrees
 * valid: within 0.02 degrees above 3 degrees; the horizon's own refraction varies with weather by a tenth of a degree
 * source: Meeus1998, equation 16.4
 * @example apparentAltitude(0); // => 0.48396
 */
export function apparentAltitude(geometric_deg: number): number {
  const above_deg = Math.max(geometric_deg, 0);
  return geometric_deg + REFRACTION_DEG / tan((above_deg + 10.26 / (above_deg + 5.1)) * RADIANS);
}

/**
 * Altitude of the sun without refraction, in degrees, from the refracted one: the inverse of `apparentAltitude`.
 * For instants defined by a negative altitude (dusk is 6 degrees below the horizon, geometric).
 *
 * in: apparent_deg, refracted altitude, -90 to 90.5
 * out: geometric altitude, degrees
 * valid: inverts to 1e-9 degrees
 * source: Meeus1998, equation 16.4, inverted by iteration
 * @example geometricAltitude(-5.51604); // => -6.00000
 */
export function geometricAltitude(apparent_deg: number): number {
  if (apparent_deg <= REFRACTION_AT_HORIZON_DEG) return apparent_deg - REFRACTION_AT_HORIZON_DEG;
  let geometric_deg = apparent_deg;
  for (let i = 0; i < 12; i++) {
    const off_deg = apparentAltitude(geometric_deg) - apparent_deg;
    geometric_deg -= off_deg;
    if (Math.abs(off_deg) < 1e-10) break;
  }
  return geometric_deg;
}

const REFRACTION_AT_HORIZON_DEG = /* @__PURE__ */ apparentAltitude(0);

/**
 * Where the sun's centre stands for a declination and an hour angle, in degrees, without refraction.
 *
 * in: declination_deg, -24 to 24; hourAngle_deg, 0 at solar noon, afternoon positive; latitude_deg
 * out: geometric altitude and azimuth clockwise from north, degrees
 * source: Meeus1998, equations 13.5 and 13.6
 * @example sunFromHourAngle(0, 0, 50).altitude_deg; // => 40.000
 */
export function sunFromHourAngle(
  declination_deg: number,
  hourAngle_deg: number,
  latitude_deg: number,
): SolarPosition {
  // d, h, p: declination, hour angle, latitude in radians; east, north, up: the direction to the sun
  const d = declination_deg * RADIANS;
  const h = hourAngle_deg * RADIANS;
  const p = latitude_deg * RADIANS;
  const sinP = sin(p);
  const cosP = cos(p);
  const sinD = sin(d);
  const cosD = cos(d);
  const cosH = cos(h);
  const up = sinP * sinD + cosP * cosD * cosH;
  const north = cosP * sinD - sinP * cosD * cosH;
  const east = -cosD * sin(h);
  const azimuth_deg = atan2(east, north) / RADIANS;
  return {
    altitude_deg: atan2(up, Math.sqrt(east * east + north * north)) / RADIANS,
    azimuth_deg: azimuth_deg < 0 ? azimuth_deg + 360 : azimuth_deg,
  };
}
