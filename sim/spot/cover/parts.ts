import type { CoverSection } from './schema.ts';

/** A cover of the parts library, with a word on where its values come from. */
export interface CoverPart
  extends Required<Pick<CoverSection, 'refractive_index' | 'absorption_per_m' | 'thickness_mm'>>,
    Partial<Pick<CoverSection, 'kind' | 'lid' | 'inner_width_mm' | 'cell_below_lid_mm'>> {
  note: string;
}

/** Covers of the parts library. */
export const COVER_PARTS: Readonly<Record<string, CoverPart>> = {
  'flat-lid': {
    refractive_index: 1.526,
    absorption_per_m: 10,
    thickness_mm: 2.5,
    note: 'generic, typical values of a clear soda-lime glass lid, from memory',
  },
  'glass-dome': {
    kind: 'dome',
    refractive_index: 1.526,
    absorption_per_m: 10,
    thickness_mm: 3,
    note: 'generic, a round dome of clear soda-lime glass, from memory',
  },
  'side-lit-jar': {
    kind: 'side-lit',
    refractive_index: 1.526,
    absorption_per_m: 10,
    thickness_mm: 2.5,
    lid: 'opaque',
    inner_width_mm: 80,
    cell_below_lid_mm: 60,
    note: 'generic, a preserving jar with an opaque lid, its cell inside, invented',
  },
  'clear-resin': {
    kind: 'resin',
    refractive_index: 1.5,
    absorption_per_m: 15,
    thickness_mm: 2,
    note: 'generic, clear casting resin, from memory',
  },
};
