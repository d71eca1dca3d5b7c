import type { KeyPath, TextDocument } from '../common/document.ts';
import { isMap, valueAt } from './paths.ts';
import type { Json, Origin } from './Scenario.ts';
import { schemaAt } from './SchemaNode.ts';

/**
 * Every value of a resolved scenario with where it came from, in the order of the scenario. A list is one value.
 *
 * in: resolved; document, what the user wrote; supplied, what parts gave, by `JSON.stringify` of the path
 */
export function originsOf(
  resolved: Json,
  document: TextDocument,
  supplied: ReadonlyMap<string, string>,
): Origin[] {
  const origins: Origin[] = [];
  const visit = (value: Json, path: readonly string[]): void => {
    if (isMap(value)) {
      for (const [key, below] of Object.entries(value)) visit(below as Json, [...path, key]);
      return;
    }
    const part = suppliedAbove(supplied, path);
    if (valueAt(document.value, path) !== undefined) {
      const { line } = document.placeOfKey(path);
      origins.push({ path, value, kind: 'scenario', from: `scenario line ${line}` });
    } else if (part !== undefined) origins.push({ path, value, kind: 'part', from: part });
    else {
      const why = impliedDefault(path) ?? assumptionAt(path, resolved);
      origins.push({ path, value, kind: 'default', from: why === undefined ? 'default' : `default: ${why}` });
    }
  };
  visit(resolved, []);
  return origins;
}

/** Why a default is what it is; of the keys of a map that was filled in whole, why the map is. */
function assumptionAt(path: KeyPath, resolved: Json): string | undefined {
  return schemaAt(path, resolved)?.assumption ?? schemaAt(path.slice(0, -1), resolved)?.assumption;
}

/** Defaults that no schema holds. */
function impliedDefault(path: KeyPath): string | undefined {
  if (path.length === 1 && path[0] === 'name') return 'the file name';
  if (path.at(-2) === 'driver' && path.at(-1) === 'restart_V') return 'a step above the cut-off';
  if (path.at(-2) === 'horizon' && path.at(-1) === 'reflectance') return "the site's albedo";
  return undefined;
}

function suppliedAbove(supplied: ReadonlyMap<string, string>, path: KeyPath): string | undefined {
  for (let length = path.length; length > 0; length--) {
    const found = supplied.get(JSON.stringify(path.slice(0, length)));
    if (found !== undefined) return found;
  }
  return undefined;
}
