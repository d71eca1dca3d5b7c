import { RADIANS } from '../common/constants.ts';
import { cos, sin } from '../common/elementary/sin.ts';
import { type SunColumns, sunWithinHour } from './sunColumns.ts';

/**
 * Where the sun stands every 3 minutes of the hours in which it is up, refracted. A row of TRACK_PARTS + 1 values for
 * each such hour, both its bounds included: row r begins at r * (TRACK_PARTS + 1).
 */
export interface SunTrack {
  /** Hour of each row in the columns of the sun. */
  hours: Uint32Array;
  altitude_deg: Float64Array;
  /** Clockwise from north. */
  azimuth_deg: Float64Array;
  /** The direction to the sun, a vector of length 1. */
  up: Float64Array;
  north: Float64Array;
  east: Float64Array;
}

/** A direction as a vector of length 1. */
export interface Direction {
  up: number;
  north: number;
  east: number;
}

/** The direction to an altitude and an azimuth in degrees. */
export function directionTo(altitude_deg: number, azimuth_deg: number): Direction {
  const flat = cos(altitude_deg * RADIANS);
  return {
    up: sin(altitude_deg * RADIANS),
    north: flat * cos(azimuth_deg * RADIANS),
    east: flat * sin(azimuth_deg * RADIANS),
  };
}

/** Parts an hour is walked in. */
export const TRACK_PARTS = 20;

/**
 * The sun's track over the hours of its columns, in degrees and as a direction, refracted.
 *
 * in: sun
 * out: the track, for all spots of a place
 */
export function sunTrack(sun: SunColumns): SunTrack {
  const hours = Uint32Array.from(sun.upShare.keys()).filter((hour) => sun.upShare[hour]! > 0);
  const column = () => new Float64Array(hours.length * (TRACK_PARTS + 1));
  const track = {
    hours,
    altitude_deg: column(),
    azimuth_deg: column(),
    up: column(),
    north: column(),
    east: column(),
  };
  let j = 0;
  for (const hour of hours) {
    for (let k = 0; k <= TRACK_PARTS; k++) {
      const { altitude_deg, azimuth_deg } = sunWithinHour(sun, hour, k / TRACK_PARTS);
      const { up, north, east } = directionTo(altitude_deg, azimuth_deg);
      track.altitude_deg[j] = altitude_deg;
      track.azimuth_deg[j] = azimuth_deg;
      track.up[j] = up;
      track.north[j] = north;
      track.east[j] = east;
      j++;
    }
  }
  return track;
}
