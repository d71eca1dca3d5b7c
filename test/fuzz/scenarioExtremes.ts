import fc from 'fast-check';
import { stringify } from 'yaml';
import { isMap } from '../../sim/scenario/paths.ts';
import { formsOf, mergedSchema, type SchemaNode } from '../../sim/scenario/SchemaNode.ts';
import { extremesOf, sizeWithin, takes } from './extremeValues.ts';
import { ORDINARY, type Plain } from './ordinaryScenarios.ts';

/** A scenario as text, and what of it is out of the ordinary. */
export interface ExtremeScenario {
  yaml: string;
  what: string;
}

/** A step down the schema: a key or a place in a list, of which of the forms its map may have. */
interface Step {
  key: string | number;
  node: SchemaNode;
}

/** Any name of a lamp, spot or obstacle. */
const ANY = '*';

/** Every place of the schema at which a value stands, with the way down to it. */
const PLACES: readonly Step[][] = placesBelow(mergedSchema(), []);

function placesBelow(node: SchemaNode, way: Step[]): Step[][] {
  const here = way.length === 0 ? [] : [way];
  const forms = node.oneOf ?? node.anyOf ?? [node];
  return [
    ...here,
    ...forms.flatMap((form) => {
      const last = way.at(-1);
      const to = last === undefined ? [] : [...way.slice(0, -1), { ...last, node: form }];
      const leaf = form !== node && form.type !== 'object' && form.type !== 'array' ? [to] : [];
      const named = typeof form.additionalProperties === 'object' ? { [ANY]: form.additionalProperties } : {};
      const below = Object.entries({ ...form.properties, ...named }).flatMap(([key, child]) =>
        placesBelow(child, [...to, { key, node: child }]),
      );
      const items =
        form.items === undefined ? [] : placesBelow(form.items, [...to, { key: 0, node: form.items }]);
      return [...leaf, ...below, ...items];
    }),
  ];
}

/** The values of ordinary scenarios at a way down, those of the form that it takes. */
function usualAt(way: readonly Step[]): unknown[] {
  let values: unknown[] = [...ORDINARY];
  for (const { key, node } of way) {
    values = values
      .flatMap((value) => childrenOf(value, key))
      .filter((child) => child !== undefined && isOfForm(node, child));
  }
  return values;
}

function childrenOf(value: unknown, key: string | number): unknown[] {
  if (Array.isArray(value)) return typeof key === 'number' ? [value[key]] : [];
  if (!isMap(value)) return [];
  return key === ANY ? Object.values(value) : [value[key]];
}

/** Whether a value is of the kind that a form wants, as far as a constant key tells it. */
function isOfForm(node: SchemaNode, value: unknown): boolean {
  if (node.oneOf !== undefined || node.anyOf !== undefined) return true;
  if (node.type === 'object')
    return isMap(value) && formsOf({ oneOf: [node] }, value).length > 0 && hasConstants(node, value);
  if (node.type === 'array') return Array.isArray(value);
  return !isMap(value) && !Array.isArray(value);
}

function hasConstants(node: SchemaNode, value: Record<string, unknown>): boolean {
  return Object.entries(node.properties ?? {}).every(
    ([key, { const: only }]) => only === undefined || value[key] === only,
  );
}

/** Something sound for a node: what ordinary scenarios have there, else the least that the schema takes. */
function sampleOf(way: readonly Step[]): unknown {
  const [usual] = usualAt(way);
  if (usual !== undefined) return structuredClone(usual);
  const { node } = way.at(-1)!;
  if (node.const !== undefined) return node.const;
  if (node.type === 'object') {
    const needed = (node.required ?? []).map((key) => [
      key,
      sampleOf([...way, { key, node: node.properties![key]! }]),
    ]);
    return Object.fromEntries(needed);
  }
  if (node.type === 'array') return [sampleOf([...way, { key: 0, node: node.items! }])];
  return node.enum?.[0] ?? (node.type === 'number' || node.type === 'integer' ? 1 : 'x');
}

/** One change to an ordinary scenario: at a place, a value of some kind, by its number there. */
interface Change {
  place: number;
  kind: keyof Values | 'size';
  value: number;
}

const TAKEN_AWAY = Symbol('taken away');
const ODD: readonly unknown[] = [TAKEN_AWAY, null, 'text', 7, true, {}, [], [1, 2], { key: 'value' }];

/** Values to try at a place: such as the schema takes at sight, all extremes, and such as are of a wrong kind. */
interface Values {
  sound: readonly unknown[];
  extreme: readonly unknown[];
  odd: readonly unknown[];
}

const known = new Map<readonly Step[], Values>();

function valuesAt(way: readonly Step[]): Values {
  const values = known.get(way) ?? newValues(way);
  known.set(way, values);
  return values;
}

function newValues(way: readonly Step[]): Values {
  const { node } = way.at(-1)!;
  if (!isLeaf(node)) return { sound: [sampleOf(way), TAKEN_AWAY], extreme: ODD, odd: ODD };
  const extreme = extremesOf(node, usualAt(way)[0]);
  return { sound: extreme.filter((value) => takes(node, value)), extreme, odd: ODD };
}

function isLeaf(node: SchemaNode): boolean {
  return node.type !== 'object' && node.type !== 'array' && !node.oneOf && !node.anyOf;
}

/** The value that a change puts in its place. */
function chosenValue({ kind, value }: Change, way: readonly Step[]): unknown {
  const values = valuesAt(way);
  if (kind === 'size') {
    const size = sizeWithin(way.at(-1)!.node, (value % 1000) / 1000);
    if (size !== undefined) return size;
  }
  const list = kind === 'size' || values[kind].length === 0 ? values.sound : values[kind];
  const chosen = list[value % Math.max(list.length, 1)];
  return typeof chosen === 'object' ? structuredClone(chosen) : chosen;
}

/** Puts a value at the end of a way, with what the way needs; out: the keys gone down. */
function put(root: Plain, way: readonly Step[], value: unknown): string {
  let at: unknown = root;
  const keys: (string | number)[] = [];
  way.forEach((step, depth) => {
    const map = at as Record<string | number, unknown>;
    const key = step.key === ANY ? (Object.keys(map)[0] ?? 'one') : step.key;
    keys.push(key);
    if (depth === way.length - 1) {
      if (value !== TAKEN_AWAY) map[key] = value;
      else if (Array.isArray(map)) map.splice(Number(key), 1);
      else delete map[key];
      return;
    }
    if (map[key] === undefined || !isOfForm(step.node, map[key]))
      map[key] = sampleOf(way.slice(0, depth + 1));
    at = map[key];
    // A wrong kind was put there by another change.
    if (typeof at !== 'object' || at === null) map[key] = at = sampleOf(way.slice(0, depth + 1));
  });
  return keys.join('.');
}

/** An ordinary scenario that has something where a way leads, if there is one. */
function baseOf(base: number, way: readonly Step[]): Plain {
  const having = ORDINARY.filter((root) => isThere(root, way));
  const choice = having.length > 0 ? having : ORDINARY;
  return choice[base % choice.length]!;
}

function built(base: number, changes: readonly Change[]): ExtremeScenario {
  const wayOf = ({ place }: Change) => PLACES[place % PLACES.length]!;
  const root = structuredClone(baseOf(base, wayOf(changes[0]!)));
  const what = changes.map((change) => {
    const way = wayOf(change);
    const value = chosenValue(change, way);
    const path = put(root, way, value);
    return `${path} ${value === TAKEN_AWAY ? 'taken away' : `= ${String(typeof value === 'object' ? JSON.stringify(value) : value)}`}`;
  });
  return { yaml: stringify(root, { aliasDuplicateObjects: false }), what: what.join('; ') };
}

const number = fc.nat({ max: 1_000_003 });
const change: fc.Arbitrary<Change> = fc.record({
  place: number,
  // What the schema refuses at sight is tried less often than what goes on.
  kind: fc.oneof(
    { weight: 6, arbitrary: fc.constant('sound' as const) },
    { weight: 3, arbitrary: fc.constant('size' as const) },
    { weight: 1, arbitrary: fc.constantFrom('extreme' as const, 'odd' as const) },
  ),
  value: number,
});

/**
 * Scenarios over the whole schema: an ordinary one in which one place, or some, hold an extreme value, a value of the
 * wrong kind, or nothing. Most come as far as a run.
 */
export const extremeScenario: fc.Arbitrary<ExtremeScenario> = fc
  .record({
    base: fc.nat({ max: ORDINARY.length - 1 }),
    changes: fc.oneof(
      { weight: 3, arbitrary: fc.array(change, { minLength: 1, maxLength: 1 }) },
      { weight: 4, arbitrary: fc.array(change, { minLength: 2, maxLength: 2 }) },
      { weight: 1, arbitrary: fc.array(change, { minLength: 3, maxLength: 8 }) },
    ),
  })
  .map(({ base, changes }) => built(base, changes));

/** Every scenario in which one place alone holds one of its values. */
export function* everySingle(): Generator<ExtremeScenario> {
  for (const [place, way] of PLACES.entries()) {
    for (const kind of ['extreme', 'odd'] as const) {
      const values = valuesAt(way)[kind];
      for (const value of values.keys()) {
        if (values.indexOf(values[value]) === value) yield built(0, [{ place, kind, value }]);
      }
    }
  }
}

function isThere(root: Plain, way: readonly Step[]): boolean {
  let values: unknown[] = [root];
  for (const { key, node } of way)
    values = values
      .flatMap((value) => childrenOf(value, key))
      .filter((child) => child !== undefined && isOfForm(node, child));
  return values.length > 0;
}
