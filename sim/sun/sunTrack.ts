import type { SunColumns } from './sunColumns.ts';
import { sunWithinHour } from './sunWithinHour.ts';

/** Where the sun stands every 3 minutes of the hours in which it is up; values of other hours are 0. */
export interface SunTrack {
  /** TRACK_PARTS + 1 values an hour, its bounds included: hour i begins at i * (TRACK_PARTS + 1). */
  altitude_deg: Float64Array;
  azimuth_deg: Float64Array;
}

/** Parts an hour is walked in. */
export const TRACK_PARTS = 20;

const known = new WeakMap<SunColumns, SunTrack>();

/**
 * The sun's track over the hours of its columns, in degrees, refracted. Made once for each set of columns, so that
 * several spots share it.
 *
 * in: sun
 * out: the track
 */
export function sunTrack(sun: SunColumns): SunTrack {
  const made = known.get(sun);
  if (made !== undefined) return made;
  const points = TRACK_PARTS + 1;
  const track: SunTrack = {
    altitude_deg: new Float64Array(sun.count * points),
    azimuth_deg: new Float64Array(sun.count * points),
  };
  for (let i = 0; i < sun.count; i++) {
    if (sun.upShare[i] === 0) continue;
    for (let k = 0; k <= TRACK_PARTS; k++) {
      const at = sunWithinHour(sun, i, k / TRACK_PARTS);
      track.altitude_deg[i * points + k] = at.altitude_deg;
      track.azimuth_deg[i * points + k] = at.azimuth_deg;
    }
  }
  known.set(sun, track);
  return track;
}
