import type { SolarPosition } from './solarPosition.ts';

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
  const up = Math.sin(p) * Math.sin(d) + Math.cos(p) * Math.cos(d) * Math.cos(h);
  const north = Math.cos(p) * Math.sin(d) - Math.sin(p) * Math.cos(d) * Math.cos(h);
  const east = -Math.cos(d) * Math.sin(h);
  const azimuth_deg = Math.atan2(east, north) / RADIANS;
  return {
    altitude_deg: Math.atan2(up, Math.sqrt(east * east + north * north)) / RADIANS,
    azimuth_deg: azimuth_deg < 0 ? azimuth_deg + 360 : azimuth_deg,
  };
}

const RADIANS = Math.PI / 180;
