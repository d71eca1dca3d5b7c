import type { CoverParams } from './coverParams.ts';
import { coverTransmittance } from './coverTransmittance.ts';
import { equivalentAngles } from './equivalentAngles.ts';

/** Transmittance of the cover over a cell, for each kind of light. */
export interface CoverCurve {
  /** For beam, by the cosine of its incidence, 0 to 1. */
  beam(cosIncidence: number): number;
  /** For even light of the sky. */
  sky: number;
  /** For light from the ground. */
  ground: number;
}

/** A cell without cover. */
export const NO_COVER: CoverCurve = { beam: () => 1, sky: 1, ground: 1 };

/**
 * Transmittance of a flat cover over a tilted cell, without unit, tabled once for a year of use.
 *
 * in: cover, `none` for a bare cell; tilt_deg of cell and cover
 * out: the curve
 * valid: within 0.0005 of `coverTransmittance` for beam
 * source: DuffieBeckman2020, BrandemuehlBeckman1980
 */
export function coverCurve(cover: CoverParams | 'none', tilt_deg: number): CoverCurve {
  if (cover === 'none') return NO_COVER;
  const table = Float64Array.from(
    { length: STEPS + 1 },
    (_, i) => coverTransmittance((Math.acos(i / STEPS) * 180) / Math.PI, cover).transmittance,
  );
  const angles = equivalentAngles(tilt_deg);
  return {
    beam: (cosIncidence) => {
      const place = Math.min(Math.max(cosIncidence, 0), 1) * STEPS;
      const i = Math.min(Math.floor(place), STEPS - 1);
      return table[i]! + (place - i) * (table[i + 1]! - table[i]!);
    },
    sky: coverTransmittance(angles.sky_deg, cover).transmittance,
    ground: coverTransmittance(angles.ground_deg, cover).transmittance,
  };
}

const STEPS = 512;
