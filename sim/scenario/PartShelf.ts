import { PARTS, type Part, type PartKind } from './parts.ts';

/** A part that a scenario may name: of the parts library, or of the maker's own file. */
export interface ShelfPart extends Part<Readonly<Record<string, unknown>>> {
  own: boolean;
}

/** All parts that a scenario may name, by the key they stand under, then by name; the library's before own ones. */
export type PartShelf = Readonly<Record<PartKind, Readonly<Record<string, ShelfPart>>>>;

/** The parts library as a shelf. */
export const LIBRARY: PartShelf = shelfOf((values) => values);

/** Keys that say what one part costs. */
export const PRICE_KEYS = ['price', 'price_per_F'] as const;

/** Money of which a unit is worth about a euro or a dollar. */
const LIKE_EUROS = /^(€|eur|euros?|\$|usd|dollars?|aud|cad|nzd|£|gbp|pounds?|chf|francs?)$/i;

/** The parts library for a scenario with prices in a currency: its own prices only where they are of that size. */
export function libraryIn(currency: unknown): PartShelf {
  if (currency === undefined || LIKE_EUROS.test(String(currency))) return LIBRARY;
  return shelfOf((values) =>
    Object.fromEntries(
      Object.entries(values).filter(([key]) => !(PRICE_KEYS as readonly string[]).includes(key)),
    ),
  );
}

function shelfOf(valuesOf: (values: object) => object): PartShelf {
  const kinds = Object.entries(PARTS).map(([kind, parts]) => [
    kind,
    Object.fromEntries(
      Object.entries(parts as Readonly<Record<string, Part>>).map(([name, part]) => [
        name,
        { ...part, values: valuesOf(part.values), own: false },
      ]),
    ),
  ]);
  return Object.fromEntries(kinds) as PartShelf;
}
