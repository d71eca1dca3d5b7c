import type { CoverSection } from './schema.ts';

/** A cover of the parts library, with a word on where its values come from. */
export interface CoverPart extends Required<Omit<CoverSection, 'part' | 'raw' | 'kind'>> {
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
};
