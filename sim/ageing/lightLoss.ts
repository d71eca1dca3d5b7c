import { expm1 } from '../common/elementary/exp.ts';
import { power } from '../common/elementary/power.ts';
import type { CellSection } from '../lamp/cell/schema.ts';
import type { CoverSection } from '../spot/cover/schema.ts';

/** What the years take of the light that the cell makes current of; shares a year. */
export interface LightLoss {
  /** The cell itself. */
  cell: number;
  /** What covers it. */
  yellowing: number;
  /** Dirt that a year leaves on a cover that is never cleaned. */
  dirt: number;
}

/** Dirt never takes more: rain takes as much off as comes. */
const MOST_DIRT = 0.15;
/** A cover that is cleaned each spring has gathered half a year's dirt by the dark weeks. */
const BY_WINTER = 0.5;

/** A part's own number, or the usual one. in: sections of cell and cover */
export function lightLoss(cell: CellSection, cover: CoverSection): LightLoss {
  return {
    cell: (cell.decline_percent_year ?? USUAL.cell) / 100,
    yellowing: (cover.yellowing_percent_year ?? (cover.kind === 'resin' ? USUAL.resin : USUAL.glass)) / 100,
    dirt: cover.kind === 'none' ? 0 : (cover.dirt_percent_year ?? USUAL.dirt) / 100,
  };
}

/** Percent a year where nothing is stated. */
const USUAL = { cell: 0.5, resin: 1, glass: 0, dirt: 4 } as const;

/**
 * Share of the light of a new lamp that is left in a winter, as far as cell and cover go.
 *
 * in: loss; years before that winter; cleaned, whether the cover is cleaned each spring
 * source: JordanKurtz2013 (0.5 percent a year is the median of silicon modules; a small cell in a jar may be worse);
 *   yellowing and dirt are assumptions without source
 */
export function lightLeft({ cell, yellowing, dirt }: LightLoss, years: number, cleaned: boolean): number {
  const gathered = MOST_DIRT * -expm1((-dirt * (years + BY_WINTER)) / MOST_DIRT);
  const dirty = cleaned ? dirt * BY_WINTER : gathered;
  const fresh = dirt * BY_WINTER;
  return power((1 - cell) * (1 - yellowing), years) * ((1 - dirty) / (1 - fresh));
}
