import { RADIANS } from '../../common/constants.ts';
import { type SunColumns, sunTrack, TRACK_PARTS } from '../../sun/sunColumns.ts';
import type { CoverCurve } from '../cover/coverCurve.ts';
import { incidenceCosine } from '../sky/incidenceCosine.ts';
import { edgeBetween } from './edgeBetween.ts';
import type { SkyDome } from './SkyDome.ts';

/** What one hour's sun gives, for each W/m2 of beam while the sun is up; means over the whole hour. */
export interface BeamOverHour {
  /** On the tilted cell, behind obstacles and cover. */
  cell: number;
  /** On the flat ground at the spot, behind obstacles. */
  flat: number;
  /** Share of the sun-up time in which the spot sees the sun, 0 to 1. */
  seen: number;
}

/** How the cell stands and what lies over it. */
export interface Plane {
  tilt_deg: number;
  bearing_deg: number;
  cover: CoverCurve;
}

/**
 * What the sun of one hour gives to a cell, without unit: mean cosines of incidence, cut where the dome blocks the
 * sun's centre. The sun's place and the cosines are taken every 3 minutes and in straight lines between; sight is
 * looked up four times as often, and where it changes, the moment is found to a few seconds, so that neither sunrise
 * nor the edge of a wall leaks beam.
 *
 * in: sun; hour, row of the columns; dome; plane
 * out: means over the hour
 * valid: obstacles wider than the sun's way in 45 seconds (0.2 degrees); the sun as a point
 * source: DuffieBeckman2020, section 2.14 for the mean of the cosine over the hour
 */
export function beamOverHour(sun: SunColumns, hour: number, dome: SkyDome, plane: Plane): BeamOverHour {
  const sum: BeamOverHour = { cell: 0, flat: 0, seen: 0 };
  const share = sun.upShare[hour]!;
  if (share === 0) return sum;
  const track = sunTrack(sun);
  const first = hour * (TRACK_PARTS + 1);
  let before = momentOf(track.altitude_deg[first]!, track.azimuth_deg[first]!, plane);
  for (let k = 1; k <= TRACK_PARTS; k++) {
    const after = momentOf(track.altitude_deg[first + k]!, track.azimuth_deg[first + k]!, plane);
    if (before.altitude_deg > 0 || after.altitude_deg > 0) addPart(sum, before, after, dome);
    before = after;
  }
  sum.cell /= TRACK_PARTS;
  sum.flat /= TRACK_PARTS;
  sum.seen = Math.min(sum.seen / TRACK_PARTS / share, 1);
  return sum;
}

/** How often sight is looked up within a part. */
const LOOKS = 4;

interface Moment {
  altitude_deg: number;
  azimuth_deg: number;
  cell: number;
  flat: number;
}

/** Cosines as if nothing stood in the way, not even the horizon. */
function momentOf(altitude_deg: number, azimuth_deg: number, plane: Plane): Moment {
  const cosine = incidenceCosine(altitude_deg, azimuth_deg, plane.tilt_deg, plane.bearing_deg);
  return {
    altitude_deg,
    azimuth_deg,
    cell: cosine > 0 ? cosine * plane.cover.beam(cosine, altitude_deg) : 0,
    flat: Math.sin(altitude_deg * RADIANS),
  };
}

/** Adds a part of the hour, its length taken as 1. */
function addPart(sum: BeamOverHour, from: Moment, to: Moment, dome: SkyDome): void {
  // Turn of the sun, across north if need be.
  let turn_deg = to.azimuth_deg - from.azimuth_deg;
  if (turn_deg > 180) turn_deg -= 360;
  else if (turn_deg < -180) turn_deg += 360;
  const pass = (at: number): number => {
    const altitude_deg = from.altitude_deg + at * (to.altitude_deg - from.altitude_deg);
    if (altitude_deg <= 0) return 0;
    const azimuth_deg = from.azimuth_deg + at * turn_deg;
    return dome.transmittance(azimuth_deg < 0 ? azimuth_deg + 360 : azimuth_deg, altitude_deg);
  };
  let start = 0;
  let passing = pass(0);
  for (let look = 1; look <= LOOKS; look++) {
    const at = look / LOOKS;
    const then = pass(at);
    if (then !== passing) {
      const edge = edgeBetween(pass, (look - 1) / LOOKS, at, 5);
      addPiece(sum, from, to, start, edge, passing);
      start = edge;
      passing = then;
    }
  }
  addPiece(sum, from, to, start, 1, passing);
}

/** Adds what passes from one moment of a part to another. */
function addPiece(
  sum: BeamOverHour,
  from: Moment,
  to: Moment,
  start: number,
  end: number,
  passing: number,
): void {
  if (passing === 0) return;
  const time = (end - start) * passing;
  const middle = (start + end) / 2;
  sum.cell += time * (from.cell + middle * (to.cell - from.cell));
  sum.flat += time * (from.flat + middle * (to.flat - from.flat));
  sum.seen += time;
}
