import type { KeyPath } from '../common/document.ts';
import { type Report, reportBelow } from '../common/InputProblem.ts';
import { spotSchema } from '../spot/schema.ts';
import type { PartShelf, ShelfPart } from './PartShelf.ts';
import { partSection } from './partSection.ts';
import { LAMP_PARTS, type PartKind } from './parts.ts';
import { isMap } from './paths.ts';

type Keys = Record<string, unknown>;

/** The part that supplied a key. */
export interface Supplier {
  kind: PartKind;
  name: string;
  part: ShelfPart;
}

/** A scenario with its parts merged in. */
export interface MergedScenario {
  value: Keys;
  /** Where each key that a part supplied came from, by `JSON.stringify` of its path. */
  supplied: ReadonlyMap<string, Supplier>;
  /** Sections whose part could not be used: what they lack is not their fault. */
  unusable: readonly KeyPath[];
}

/**
 * The scenario with the values of its parts under the keys beside them, and the usual cover over every cell that has
 * none stated.
 *
 * in: value, as the user wrote it; shelf, the parts there are; report, takes unknown parts and keys that rule each
 *   other out
 * out: a new value; the one handed in is left alone
 */
export function mergeParts(value: Keys, shelf: PartShelf, report: Report): MergedScenario {
  const supplied = new Map<string, Supplier>();
  const unusable: KeyPath[] = [];
  const merge = (kind: PartKind, given: unknown, path: KeyPath): unknown => {
    if (!isMap(given)) return given;
    const section = partSection(kind, given, shelf, reportBelow(report, ...path));
    if (section === undefined) {
      unusable.push(path);
      return given;
    }
    if (section === given) return given;
    const name = String(given.part);
    for (const key of Object.keys(section)) {
      if (key in given) continue;
      supplied.set(JSON.stringify([...path, key]), { kind, name, part: shelf[kind][name]! });
    }
    return section;
  };
  const merged: Keys = { ...value };
  for (const [name, lamp] of mapsOf(merged, 'lamps')) {
    for (const kind of LAMP_PARTS) {
      if (kind in lamp) lamp[kind] = merge(kind, lamp[kind], ['lamps', name, kind]);
    }
  }
  for (const [name, spot] of mapsOf(merged, 'spots')) {
    const cover = 'cover' in spot ? spot.cover : spotSchema.shape.cover.parse(undefined);
    spot.cover = merge('cover', cover, ['spots', name, 'cover']);
  }
  return { value: merged, supplied, unusable };
}

/** The maps below a key, by name; copies, put in the place of those that were there. */
function mapsOf(root: Keys, key: string): [string, Keys][] {
  if (!isMap(root[key])) return [];
  const copies = Object.entries(root[key]).map(([name, each]) => [name, isMap(each) ? { ...each } : each]);
  root[key] = Object.fromEntries(copies);
  return copies.filter((copy): copy is [string, Keys] => isMap(copy[1]));
}
