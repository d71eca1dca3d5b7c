import { RADIANS } from '../../common/constants.ts';
import { cos, sin } from '../../common/elementary/sin.ts';
import { type Direction, TRACK_PARTS } from '../../sun/SunTrack.ts';
import type { CellPassage } from '../cover/cellPassage.ts';
import type { BeamSight } from './beamSight.ts';

/** How a cell stands, and what its light passes. */
export interface Plane {
  tilt_deg: number;
  bearing_deg: number;
  /** Undefined: all light passes. */
  passage: CellPassage | undefined;
}

/**
 * What the sun gives to a plane behind obstacles, cover and front, for each W/m2 of beam while the sun is up; means over the
 * whole hour, without unit: cosines of incidence taken every 3 minutes, straight lines between.
 *
 * in: sight; plane; count, hours of the sun's columns
 * out: one value an hour
 * source: DuffieBeckman2020, section 2.14 for the mean of the cosine over the hour
 */
export function beamOnPlane(sight: BeamSight, plane: Plane, count: number): Float64Array {
  const { track, passing, moment } = sight;
  const { up, north, east, altitude_deg } = track;
  const normal = normalOf(plane);
  const { share } = plane.passage ?? { share: () => 1 };
  const given = (j: number) => {
    const cosine = incidenceCosine(up[j]!, north[j]!, east[j]!, normal);
    return cosine > 0 ? cosine * share(cosine, altitude_deg[j]!) : 0;
  };
  const beam = new Float64Array(count);
  let part = 0;
  let j = 0;
  for (const hour of track.hours) {
    let sum = 0;
    let before = given(j++);
    for (let k = 0; k < TRACK_PARTS; k++) {
      const after = given(j++);
      sum += passing[part]! * before + moment[part]! * (after - before);
      before = after;
      part++;
    }
    beam[hour] = sum / TRACK_PARTS;
  }
  return beam;
}

/** What a plane looks straight at. */
export function normalOf({ tilt_deg, bearing_deg }: Pick<Plane, 'tilt_deg' | 'bearing_deg'>): Direction {
  const flat = sin(tilt_deg * RADIANS);
  return {
    up: cos(tilt_deg * RADIANS),
    north: flat * cos(bearing_deg * RADIANS),
    east: flat * sin(bearing_deg * RADIANS),
  };
}

/**
 * Cosine of the angle between the sun and the normal of a plane, without unit; negative behind the plane.
 *
 * in: up, north, east, the direction to the sun; normal
 * out: -1 to 1
 * source: DuffieBeckman2020, equation 1.6.3, as the product of two vectors
 */
export function incidenceCosine(up: number, north: number, east: number, normal: Direction): number {
  return up * normal.up + north * normal.north + east * normal.east;
}
