import { RADIANS } from '../../common/constants.ts';
import { type SunColumns, sunTrack, TRACK_PARTS } from '../../sun/sunColumns.ts';
import type { CoverCurve } from '../cover/coverCurve.ts';
import type { SkyDome } from './SkyDome.ts';

/** What one hour's sun gives, for each W/m2 of beam while the sun is up; means over the whole hour. */
export interface BeamOverHour {
  /** On the cell, behind obstacles and cover. */
  planeOfArray: number;
  /** On the flat ground at the spot, behind obstacles. */
  horizontal: number;
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
  const sum: BeamOverHour = { planeOfArray: 0, horizontal: 0, seen: 0 };
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
  sum.planeOfArray /= TRACK_PARTS;
  sum.horizontal /= TRACK_PARTS;
  sum.seen = Math.min(sum.seen / TRACK_PARTS / share, 1);
  return sum;
}

/** How often sight is looked up within a part. */
const LOOKS = 4;

interface Moment {
  altitude_deg: number;
  azimuth_deg: number;
  planeOfArray: number;
  horizontal: number;
}

/** Cosines as if nothing stood in the way, not even the horizon. */
function momentOf(altitude_deg: number, azimuth_deg: number, plane: Plane): Moment {
  const cosine = incidenceCosine(altitude_deg, azimuth_deg, plane.tilt_deg, plane.bearing_deg);
  return {
    altitude_deg,
    azimuth_deg,
    planeOfArray: cosine > 0 ? cosine * plane.cover.beam(cosine, altitude_deg) : 0,
    horizontal: Math.sin(altitude_deg * RADIANS),
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
  const addUntil = (end: number): void => {
    const time = (end - start) * passing;
    const middle = (start + end) / 2;
    sum.planeOfArray += time * (from.planeOfArray + middle * (to.planeOfArray - from.planeOfArray));
    sum.horizontal += time * (from.horizontal + middle * (to.horizontal - from.horizontal));
    sum.seen += time;
    start = end;
  };
  for (let look = 1; look <= LOOKS; look++) {
    const then = pass(look / LOOKS);
    if (then === passing) continue;
    addUntil(edgeBetween(pass, (look - 1) / LOOKS, look / LOOKS));
    passing = then;
  }
  addUntil(1);
}

/** Times the span between two looks is halved to find an edge. */
const HALVINGS = 5;

/** Where a transmittance changes between two points: the step's place, or the half-way value's where it is gradual. */
function edgeBetween(pass: (at: number) => number, from: number, to: number): number {
  const before = pass(from);
  const after = pass(to);
  let low = from;
  let high = to;
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    const there = pass(middle);
    if (Math.abs(there - before) < Math.abs(there - after)) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

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
