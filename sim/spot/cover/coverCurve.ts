import { type ElevationLight, elevationLight, PLAIN_LIGHT } from '../shade/elevationLight.ts';
import type { CoverParams } from './coverParams.ts';
import { coverTransmittance } from './coverTransmittance.ts';
import { equivalentAngles } from './equivalentAngles.ts';
import { jarSide } from './jarSide.ts';
import { resinTransmittance } from './resinTransmittance.ts';

/** Transmittance of what lies over a cell, for each kind of light. */
export interface CoverCurve {
  /** For beam, by the cosine of its incidence on the cell, 0 to 1, and by the sun's altitude. */
  beam(cosIncidence: number, altitude_deg: number): number;
  /** For even light of the sky, and of what stands before it. */
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
  const table = tabled((cosine) => pass((Math.acos(cosine) * 180) / Math.PI));
  return {
    beam: (cosIncidence) => table(cosIncidence),
    sky: pass(angles.sky_deg),
    ground: pass(angles.ground_deg),
    light: PLAIN_LIGHT,
  };
}

function sideCurve(jar: CoverParams): CoverCurve {
  const table = tabled((place) => coverTransmittance(place * 90, jar).transmittance);
  const edge_deg = jar.lid?.from_deg ?? 90;
  // Light from below comes in under the lid.
  const side = elevationLight((elevation_deg) => table(elevation_deg / 90));
  return {
    beam: (_, altitude_deg) =>
      altitude_deg <= edge_deg ? table(altitude_deg / 90) : jar.lid?.clear ? table(1 - altitude_deg / 90) : 0,
    sky: 1,
    ground: side.leaning(90) / PLAIN_LIGHT.leaning(90),
    light: elevationLight((elevation_deg) => jarSide(elevation_deg, jar)),
  };
}

/** A function of 0 to 1 as a table, straight lines between its points. */
function tabled(value: (place: number) => number): (place: number) => number {
  const table = Float64Array.from({ length: STEPS + 1 }, (_, i) => value(i / STEPS));
  return (at) => {
    const place = Math.min(Math.max(at, 0), 1) * STEPS;
    const i = Math.min(Math.floor(place), STEPS - 1);
    return table[i]! + (place - i) * (table[i + 1]! - table[i]!);
  };
}

const STEPS = 512;
