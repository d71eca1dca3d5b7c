import { PARTS, type Part, type PartKind } from './parts.ts';

/** A part that a scenario may name: of the parts library, or of the maker's own file. */
export interface ShelfPart extends Part<Readonly<Record<string, unknown>>> {
  own: boolean;
}

/** All parts that a scenario may name, by the key they stand under, then by name; the library's before own ones. */
export type PartShelf = Readonly<Record<PartKind, Readonly<Record<string, ShelfPart>>>>;

/** The parts library as a shelf. */
export const LIBRARY = shelfOf(PARTS, false);

/** Parts by kind and name as a shelf. */
export function shelfOf(
  parts: Readonly<Record<PartKind, Readonly<Record<string, Part>>>>,
  own: boolean,
): PartShelf {
  const kinds = Object.entries(parts).map(([kind, named]) => [
    kind,
    Object.fromEntries(Object.entries(named).map(([name, part]) => [name, { ...part, own }])),
  ]);
  return Object.fromEntries(kinds) as PartShelf;
}
