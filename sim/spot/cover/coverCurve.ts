import { straightLines } from '../../common/numeric.ts';
import { type ElevationLight, elevationLight, PLAIN_LIGHT } from '../shade/domeShares.ts';
import type { CoverParams } from './coverParams.ts';
import { coverTransmittance, equivalentAngles, resinTransmittance } from './coverTransmittance.ts';

/** Transmittance of what lies over a cell, for each kind of light. */
export interface CoverCurve {
  /** For beam, by the cosine of its incidence on the cell, 0 to 1, and by the sun's altitude. */
  beam(cosIncidence: number, altitude_deg: number): number;
  /** For isotropic light of the sky, and of what stands before it. */
  sky: number;
  /** For light from the ground. */
  ground: number;
  /** What the cover takes by elevation; where it is not plain, `sky` is 1 and the dome's integral holds the loss. */
  light: ElevationLight;
}

/** A cell without cover. */
export const NO_COVER: CoverCurve = { beam: () => 1, sky: 1, ground: 1, light: PLAIN_LIGHT };

/**
 * Transmittance of the cover over a tilted cell, without unit, tabled once for a year of use.
 *
 * A flat cover and resin lie on the cell and tilt with it. A dome is met straight on from every side. A jar lit
 * through its side stands upright whatever the cell's tilt.
 *
 * in: cover, `none` for a bare cell; tilt_deg of the cell
 * out: the curve
 * valid: within 0.0005 of the equations for beam
 * source: DuffieBeckman2020, BrandemuehlBeckman1980, DeSoto2006
 */
export function coverCurve(cover: CoverParams | 'none', tilt_deg: number): CoverCurve {
  if (cover === 'none') return NO_COVER;
  if (cover.kind === 'dome') {
    const through = coverTransmittance(0, cover).transmittance;
    return { beam: () => through, sky: through, ground: through, light: PLAIN_LIGHT };
  }
  if (cover.kind === 'side-lit') return sideCurve(cover);
  const pass = (incidence_deg: number) =>
    cover.kind === 'resin'
      ? resinTransmittance(incidence_deg, cover)
      : coverTransmittance(incidence_deg, cover).transmittance;
  const angles = equivalentAngles(tilt_deg);
  const beam = tabled((cosine) => pass((Math.acos(cosine) * 180) / Math.PI));
  return { beam, sky: pass(angles.sky_deg), ground: pass(angles.ground_deg), light: PLAIN_LIGHT };
}

function sideCurve(jar: CoverParams): CoverCurve {
  const table = tabled((place) => coverTransmittance(place * 90, jar).transmittance);
  const quick = (incidence_deg: number) => table(incidence_deg / 90);
  // Light from below comes in under the lid.
  const side = elevationLight(quick);
  return {
    beam: (_, altitude_deg) => jarSide(altitude_deg, jar, quick),
    sky: 1,
    ground: side.vertical(90) / PLAIN_LIGHT.vertical(90),
    light: elevationLight((elevation_deg) => jarSide(elevation_deg, jar)),
  };
}

/**
 * Transmittance of an upright round jar for light from an elevation, without unit: through its side as far as the lid
 * is not in the way, above that through the lid if it is clear.
 *
 * in: elevation_deg, 0 to 90; jar; pass, transmittance of its sheet by incidence in degrees
 * out: 0 to 1
 * valid: a small cell on the jar's axis, so that light meets the glass across; nothing reflected inside the jar
 * source: DuffieBeckman2020, equations 5.2.1 to 5.3.3 for the sheet
 */
export function jarSide(
  elevation_deg: number,
  jar: CoverParams,
  pass = (incidence_deg: number) => coverTransmittance(incidence_deg, jar).transmittance,
): number {
  if (jar.lid === undefined || elevation_deg <= jar.lid.from_deg) return pass(elevation_deg);
  return jar.lid.clear ? pass(90 - elevation_deg) : 0;
}

/** A function of 0 to 1 as a table, straight lines between its points. */
function tabled(value: (place: number) => number): (place: number) => number {
  const between = straightLines(Float64Array.from({ length: STEPS + 1 }, (_, i) => value(i / STEPS)));
  return (at) => between(Math.min(Math.max(at, 0), 1) * STEPS);
}

const STEPS = 512;
