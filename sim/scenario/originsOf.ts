import type { KeyPath, TextDocument } from '../common/document.ts';
import { placeText } from '../common/InputProblem.ts';
import type { MergedScenario, Supplier } from './mergeParts.ts';
import { type OwnParts, pathInOwnFile } from './ownParts.ts';
import { PRICE_KEYS } from './PartShelf.ts';
import { isBelow, isMap, valueAt } from './paths.ts';
import type { ReadScenario } from './readQuantities.ts';
import type { Json, Origin, Scenario } from './Scenario.ts';
import { schemaAt } from './SchemaNode.ts';

/**
 * Every value of a resolved scenario with where it came from, in the order of the scenario. A list is one value.
 *
 * in: resolved; written, what the user wrote, with those of its numbers that were written with a unit; merged, for what
 *   parts gave; own parts, where it names some
 */
export function originsOf(
  resolved: Json,
  written: Written,
  merged: MergedScenario,
  own: OwnParts | undefined,
): Origin[] {
  const origins: Origin[] = [];
  const visit = (value: Json, path: readonly string[]): void => {
    if (isMap(value)) {
      for (const [key, below] of Object.entries(value)) visit(below as Json, [...path, key]);
      return;
    }
    const part = suppliedAbove(merged.supplied, path);
    const inOwn = own && (pathInOwnFile(path, merged) ?? OWN_PLACES.get(path.join('.')));
    if (valueAt(written.document.value, path) !== undefined) {
      const place = written.document.placeOfKey(path);
      origins.push({ path, value, kind: 'scenario', from: placeWords(path, written), place });
    } else if (inOwn) {
      const name = part === undefined ? 'own parts' : `own part ${part.name}`;
      const place = inOwn.length === 0 ? own.file : placeWords(inOwn, own, own.file);
      origins.push({ path, value, kind: 'own part', from: `${name} (${place})` });
    } else if (part !== undefined) {
      origins.push({ path, value, kind: 'part', from: `part ${part.name} (${part.part.note})` });
    } else {
      const why = impliedDefault(path) ?? assumptionAt(path, resolved);
      origins.push({ path, value, kind: 'default', from: why === undefined ? 'default' : `default: ${why}` });
    }
  };
  visit(resolved, []);
  return origins;
}

interface Written {
  document: TextDocument;
  texts: ReadScenario['texts'];
}

/** What a scenario takes from the file of its own parts beside those, and where that stands in the file. */
const OWN_PLACES: ReadonlyMap<string, KeyPath> = new Map([
  ['currency', ['currency']],
  ['parts.sha256', []],
]);

/** The line of a value, if it has one, in another file its whole place, and as what it was written there: 'scenario line 12: 180 cm'. */
function placeWords(path: KeyPath, { document, texts }: Written, file?: string): string {
  const { line, column } = document.placeOfKey(path);
  const ofScenario = line === undefined ? 'scenario' : `scenario line ${line}`;
  const place = file === undefined ? ofScenario : placeText(file, line, column);
  const said = texts.filter(({ path: at }) => isBelow(at, path)).map(({ text }) => text);
  return `${place}${said.length === 0 ? '' : `: ${said.join(', ')}`}`;
}

/** Why a default is what it is; of the keys of a map that was filled in whole, why the map is. */
function assumptionAt(path: KeyPath, resolved: Json): string | undefined {
  return schemaAt(path, resolved)?.assumption ?? schemaAt(path.slice(0, -1), resolved)?.assumption;
}

/** Defaults that no schema holds. */
function impliedDefault(path: KeyPath): string | undefined {
  if (path.length === 1 && path[0] === 'name') return 'the file name';
  if (path.at(-2) === 'driver' && path.at(-1) === 'restart_V') return 'a step above the cut-off';
  if (path.at(-1) === 'lowest_V') return 'a lithium hybrid, from memory';
  if (path.at(-2) === 'horizon' && path.at(-1) === 'reflectance') return "the site's albedo";
  return undefined;
}

function suppliedAbove(supplied: MergedScenario['supplied'], path: KeyPath): Supplier | undefined {
  for (let length = path.length; length > 0; length--) {
    const found = supplied.get(JSON.stringify(path.slice(0, length)));
    if (found !== undefined) return found;
  }
  return undefined;
}

const GENERIC_PRICES =
  'prices of generic parts: the middle of what hobby quantities cost, in euros or dollars, from memory';

/**
 * What a scenario rests on without having been told, in sentences: generic parts, and defaults with an assumption.
 * The same assumption of several lamps or spots is one sentence.
 */
export function assumptionsOf({ origins, resolved }: Pick<Scenario, 'origins' | 'resolved'>): string[] {
  const users = new Map<string, Set<string>>();
  const add = (sentence: string, { path }: Origin): void => {
    const who = path[0] === 'lamps' || path[0] === 'spots' ? path[1]! : path[0]!;
    users.set(sentence, (users.get(sentence) ?? new Set()).add(who));
  };
  for (const origin of origins.filter(({ kind }) => kind === 'part')) {
    const isPrice = PRICE_KEYS.some((key) => key === origin.path.at(-1));
    add(isPrice ? GENERIC_PRICES : origin.from, origin);
  }
  for (const origin of origins) {
    if (origin.kind !== 'default' || !origin.from.startsWith('default: ') || origin.path.length === 1)
      continue;
    const node = schemaAt(origin.path, resolved);
    const unit = node?.unit === undefined || node.unit === '1' ? '' : ` ${node.unit}`;
    const key = origin.path.slice(origin.path[0] === 'lamps' || origin.path[0] === 'spots' ? 2 : 0).join('.');
    const value = typeof origin.value === 'string' ? origin.value : JSON.stringify(origin.value);
    add(`${key} ${value}${unit}: ${origin.from.slice('default: '.length)}`, origin);
  }
  return [...users].map(([sentence, who]) => `${sentence} [${[...who].join(', ')}]`);
}
