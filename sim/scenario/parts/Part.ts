/** A part of the library: the keys it fills in, and a word on where its values come from. */
export interface Part<Section> {
  note: string;
  values: Section;
}

/** Said of every part that is nobody's in particular. */
export const GENERIC = 'generic; typical datasheet values, from memory';
