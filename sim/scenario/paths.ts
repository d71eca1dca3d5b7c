import type { KeyPath } from '../common/document.ts';

/** True for a map of keys: no list, no scalar, not null. */
export function isMap(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** Keys and values of a map; none where a value is no map. */
export function entriesOf(value: unknown): [string, unknown][] {
  return isMap(value) ? Object.entries(value) : [];
}

/** The value at a path of plain maps and lists; undefined where there is none. */
export function valueAt(root: unknown, path: KeyPath): unknown {
  let value = root;
  for (const step of path) {
    if (Array.isArray(value)) value = value[Number(step)];
    else if (isMap(value) && Object.hasOwn(value, step)) value = value[step];
    else return undefined;
  }
  return value;
}

/** True where a path lies at or below another. */
export function isBelow(path: KeyPath, above: KeyPath): boolean {
  return above.every((step, i) => step === path[i]);
}

/** True where two paths are the same. */
export function samePath(one: KeyPath, other: KeyPath): boolean {
  return one.length === other.length && isBelow(one, other);
}

/** Some paths, of which a scenario with very many mistakes may have a hundred thousand. */
export class PathSet {
  private readonly own = new Set<string>();
  private readonly above = new Set<string>();

  constructor(paths: readonly KeyPath[]) {
    for (const path of paths) {
      this.own.add(JSON.stringify(path));
      for (const place of aboveOf(path)) this.above.add(place);
    }
  }

  has(path: KeyPath): boolean {
    return this.own.has(JSON.stringify(path));
  }

  /** Whether one of them is the path, or lies above it. */
  hasAtOrAbove(path: KeyPath): boolean {
    return this.has(path) || aboveOf(path).some((place) => this.own.has(place));
  }

  /** Whether one of them lies below the path. */
  hasBelow(path: KeyPath): boolean {
    return this.above.has(JSON.stringify(path));
  }
}

/** The paths above one, as text. */
function aboveOf(path: KeyPath): string[] {
  return path.map((_, depth) => JSON.stringify(path.slice(0, depth)));
}
