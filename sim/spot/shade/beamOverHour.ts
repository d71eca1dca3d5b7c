import type { SolarPosition } from '../../sun/solarPosition.ts';
import type { SunColumns } from '../../sun/sunColumns.ts';
import { type SunTrack, sunTrack, TRACK_PARTS } from '../../sun/sunTrack.ts';
import { sunWithinHour } from '../../sun/sunWithinHour.ts';
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
 * sun's centre. The hour is walked in 3-minute parts; where sight changes within a part its moment is found to a few
 * seconds, so that neither sunrise nor the edge of a wall leaks beam.
 *
 * in: sun; hour, row of the columns; dome; plane
 * out: means over the hour
 * valid: obstacles wider than the sun's way in 3 minutes (0.75 degrees); the sun as a point
 * source: DuffieBeckman2020, section 2.14 for the mean of the cosine over the hour
 */
export function beamOverHour(sun: SunColumns, hour: number, dome: SkyDome, plane: Plane): BeamOverHour {
  const sum: BeamOverHour = { cell: 0, flat: 0, seen: 0 };
  const share = sun.upShare[hour]!;
  if (share === 0) return sum;
  const pass = (moment: number) => {
    const at = sunWithinHour(sun, hour, moment);
    return at.altitude_deg > 0 ? dome.transmittance(at.azimuth_deg, at.altitude_deg) : 0;
  };
  const track = sunTrack(sun);
  let before = momentOf(trackedAt(track, hour, 0), 0, dome, plane);
  for (let k = 1; k <= TRACK_PARTS; k++) {
    const after = momentOf(trackedAt(track, hour, k), k / TRACK_PARTS, dome, plane);
    if (before.pass === after.pass) {
      if (after.pass > 0) addPiece(sum, before, after, after.pass);
    } else {
      const moment = edgeBetween(pass, before.moment, after.moment, 6);
      const edge = momentOf(sunWithinHour(sun, hour, moment), moment, dome, plane);
      addPiece(sum, before, edge, before.pass);
      addPiece(sum, edge, after, after.pass);
    }
    before = after;
  }
  sum.seen = Math.min(sum.seen / share, 1);
  return sum;
}

const RADIANS = Math.PI / 180;

interface Moment {
  /** Share of the hour gone. */
  moment: number;
  pass: number;
  cell: number;
  flat: number;
}

function trackedAt(track: SunTrack, hour: number, k: number): SolarPosition {
  const i = hour * (TRACK_PARTS + 1) + k;
  return { altitude_deg: track.altitude_deg[i]!, azimuth_deg: track.azimuth_deg[i]! };
}

function momentOf(at: SolarPosition, moment: number, dome: SkyDome, plane: Plane): Moment {
  if (at.altitude_deg <= 0) return { moment, pass: 0, cell: 0, flat: 0 };
  const cosine = incidenceCosine(at.altitude_deg, at.azimuth_deg, plane.tilt_deg, plane.bearing_deg);
  return {
    moment,
    pass: dome.transmittance(at.azimuth_deg, at.altitude_deg),
    cell: cosine > 0 ? cosine * plane.cover.beam(cosine, at.altitude_deg) : 0,
    flat: Math.sin(at.altitude_deg * RADIANS),
  };
}

function addPiece(sum: BeamOverHour, from: Moment, to: Moment, pass: number): void {
  const time = (to.moment - from.moment) * pass;
  sum.cell += (time * (from.cell + to.cell)) / 2;
  sum.flat += (time * (from.flat + to.flat)) / 2;
  sum.seen += time;
}
