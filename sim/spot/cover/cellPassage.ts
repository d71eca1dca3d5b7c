import { acos } from '../../common/elementary/atan2.ts';
import { straightLines } from '../../common/numeric.ts';
import { type CellFront, frontShare } from './cellFront.ts';
import type { CoverParams } from './coverParams.ts';
import { coverTransmittance, fresnelReflectance, resinTransmittance } from './coverTransmittance.ts';

/** What passes of the light on its way into a cell: through the cover, and then through the cell's own front. */
export interface CellPassage {
  /**
   * Share of the light from one direction that passes, 0 to 1, by the cosine of its incidence on the cell, 0 to 1, and
   * its elevation, below 0 from the ground. A cell's own front counts by what it passes straight on.
   */
  share(cosIncidence: number, elevation_deg: number): number;
  /** Elevation at which that share jumps, such as the edge of a jar's lid. */
  jump_deg?: number;
}

/**
 * What cover and front pass into a cell, by direction, tabled once for a year of use.
 *
 * A flat lid lies on the cell and tilts with it; behind its other side light goes on as it came, and so meets the
 * cell's front at the same angle. A dome is met straight on from every side, a jar lit through its side by the
 * elevation of the light, whatever the cell's tilt; either leaves the angle at the cell as it is. Resin has no air
 * between it and the cell, so it is the cell's front itself: what its surface reflects of light straight on, the front
 * it took the place of did before.
 *
 * in: cover, 'none' for a bare cell; front, of the cell
 * out: the passage; undefined where all light passes
 * valid: within 0.0005 of the equations; light reflected between the cell's front and the cover is left out
 * source: DuffieBeckman2020, DeSoto2006, MartinRuiz2001
 */
export function cellPassage(cover: CoverParams | 'none', front: CellFront): CellPassage | undefined {
  const ofFront = frontShare(front);
  if (cover === 'none') return ofFront && byCosine(ofFront);
  const onFront = ofFront ?? (() => 1);
  if (cover.kind === 'dome') {
    const through = coverTransmittance(0, cover).transmittance;
    return byCosine((cosIncidence) => through * onFront(cosIncidence));
  }
  if (cover.kind === 'side-lit') return throughSide(cover, onFront);
  if (cover.kind === 'resin') {
    const straightOn = 1 - fresnelReflectance(0, cover.refractiveIndex).parallel;
    return byCosine((cosIncidence) => resinTransmittance(degrees(cosIncidence), cover) / straightOn);
  }
  return byCosine(
    (cosIncidence) => coverTransmittance(degrees(cosIncidence), cover).transmittance * onFront(cosIncidence),
  );
}

function degrees(cosine: number): number {
  return (acos(cosine) * 180) / Math.PI;
}

function byCosine(share: (cosIncidence: number) => number): CellPassage {
  return { share: tabled(share) };
}

function throughSide(jar: CoverParams, onFront: (cosIncidence: number) => number): CellPassage {
  const sheet = tabled((place) => coverTransmittance(place * 90, jar).transmittance);
  const quick = (incidence_deg: number) => sheet(incidence_deg / 90);
  const front = tabled(onFront);
  return {
    share: (cosIncidence, elevation_deg) => jarSide(elevation_deg, jar, quick) * front(cosIncidence),
    ...(jar.lid !== undefined && { jump_deg: jar.lid.from_deg }),
  };
}

/**
 * Transmittance of an upright round jar for light from an elevation, without unit: through its side as far as the lid
 * is not in the way, above that through the lid if it is clear.
 *
 * in: elevation_deg, -90 (from below, in under the lid) to 90; jar; pass, transmittance of its sheet by incidence in degrees
 * out: 0 to 1
 * valid: a small cell on the jar's axis, so that light meets the glass across; nothing reflected inside the jar
 * source: DuffieBeckman2020, equations 5.2.1 to 5.3.3 for the sheet
 */
export function jarSide(
  elevation_deg: number,
  jar: CoverParams,
  pass = (incidence_deg: number) => coverTransmittance(incidence_deg, jar).transmittance,
): number {
  if (jar.lid === undefined || elevation_deg <= jar.lid.from_deg) return pass(Math.abs(elevation_deg));
  return jar.lid.clear ? pass(90 - elevation_deg) : 0;
}

/** A function of 0 to 1 as a table, straight lines between its points. */
function tabled(value: (place: number) => number): (place: number) => number {
  const between = straightLines(Float64Array.from({ length: STEPS + 1 }, (_, i) => value(i / STEPS)));
  return (at) => between(Math.min(Math.max(at, 0), 1) * STEPS);
}

const STEPS = 512;
