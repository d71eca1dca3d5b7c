import { RADIANS } from '../../common/constants.ts';
/**
 * Cosine of the angle between the sun and the normal of a tilted plane, without unit; negative behind the plane.
 *
 * in: altitude_deg and azimuth_deg of the sun; tilt_deg, 0 flat to 90 upright; bearing_deg the plane faces.
 *   Azimuth and bearing clockwise from north
 * out: -1 to 1
 * source: DuffieBeckman2020, equation 1.6.3
 * @example incidenceCosine(30, 180, 60, 180); // => 1.0000
 */
export function incidenceCosine(
  altitude_deg: number,
  azimuth_deg: number,
  tilt_deg: number,
  bearing_deg: number,
): number {
  const altitude = altitude_deg * RADIANS;
  const tilt = tilt_deg * RADIANS;
  return (
    Math.sin(altitude) * Math.cos(tilt) +
    Math.cos(altitude) * Math.sin(tilt) * Math.cos((azimuth_deg - bearing_deg) * RADIANS)
  );
}
