import { RADIANS } from '../../common/constants.ts';
/** Integrals over the elevation, from 0 to the one given, of what a plane takes along one bearing. */
export interface ElevationLight {
  /** Of sin(e) cos(e): the flat plane. */
  upright(elevation_deg: number): number;
  /** Of cos(e) cos(e): the upright plane. */
  leaning(elevation_deg: number): number;
}

/** Nothing but the sky between plane and dome. */
export const PLAIN_LIGHT: ElevationLight = {
  upright: (elevation_deg) => Math.sin(elevation_deg * RADIANS) ** 2 / 2,
  leaning: (elevation_deg) => {
    const e = elevation_deg * RADIANS;
    return e / 2 + Math.sin(2 * e) / 4;
  },
};

/**
 * The same integrals behind a cover that passes a share of the light by its elevation, such as the side of a jar.
 *
 * in: pass, share by elevation in degrees, 0 to 90
 * out: tabled every tenth of a degree
 */
export function elevationLight(pass: (elevation_deg: number) => number): ElevationLight {
  const upright = new Float64Array(STEPS + 1);
  const leaning = new Float64Array(STEPS + 1);
  for (let i = 0; i < STEPS; i++) {
    const from_deg = (i * 90) / STEPS;
    const to_deg = ((i + 1) * 90) / STEPS;
    const share = pass((from_deg + to_deg) / 2);
    upright[i + 1] = upright[i]! + share * (PLAIN_LIGHT.upright(to_deg) - PLAIN_LIGHT.upright(from_deg));
    leaning[i + 1] = leaning[i]! + share * (PLAIN_LIGHT.leaning(to_deg) - PLAIN_LIGHT.leaning(from_deg));
  }
  const at = (table: Float64Array) => (elevation_deg: number) => {
    const place = (elevation_deg * STEPS) / 90;
    const i = Math.min(Math.floor(place), STEPS - 1);
    return table[i]! + (place - i) * (table[i + 1]! - table[i]!);
  };
  return { upright: at(upright), leaning: at(leaning) };
}

const STEPS = 900;
