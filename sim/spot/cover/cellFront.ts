import { exp } from '../../common/elementary/exp.ts';
/** Fronts a cell may have; 'none' loses nothing at a slant, as a sensor that follows the cosine. */
export const CELL_FRONTS = ['flat', 'textured', 'coated', 'none'] as const;
export type CellFront = (typeof CELL_FRONTS)[number];

/**
 * Angular loss coefficient of each front, without unit. Flat: clean plain glass has 0.16 to 0.17, and 0.17 is a smooth
 * front of refractive index 1.5 by Fresnel, within 0.006; textured and coated: typical values.
 * source: MartinRuiz2001 (all from memory)
 */
const ANGULAR_LOSS: Readonly<Record<Exclude<CellFront, 'none'>, number>> = {
  flat: 0.17,
  textured: 0.12,
  coated: 0.14,
};

/**
 * What a front passes by the angle of incidence, without unit, of what it passes straight on: a cell's current is
 * stated for light that meets it straight on, so the loss there is in it already.
 *
 * in: front
 * out: takes the cosine of the incidence, 0 to 1; undefined for a front that loses nothing
 * source: MartinRuiz2001
 */
export function frontShare(front: CellFront): ((cosIncidence: number) => number) | undefined {
  if (front === 'none') return undefined;
  return (cosIncidence) => angularShare(cosIncidence, ANGULAR_LOSS[front]);
}

/**
 * Share of the light at an angle of incidence that a cell's front passes, of what it passes straight on, without unit.
 *
 * in: cosIncidence, 0 to 1; loss, the front's angular loss coefficient, 0.1 to 0.2
 * out: 0 along the surface to 1 straight on
 * valid: clean fronts of silicon cells
 * source: MartinRuiz2001, equation 4 (number from memory)
 * @example angularShare(0.5, 0.17); // => 0.9498
 */
export function angularShare(cosIncidence: number, loss: number): number {
  return (1 - exp(-cosIncidence / loss)) / (1 - exp(-1 / loss));
}
