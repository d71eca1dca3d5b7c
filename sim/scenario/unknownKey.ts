import type { KeyPath } from '../common/document.ts';
import { nearestWord } from '../common/hints.ts';
import type { ValueProblem } from '../common/InputProblem.ts';
import { entriesOf, isMap, PathSet, valueAt } from './paths.ts';
import { expectedWords, formsOf, keysOf, mergedSchema, type SchemaNode, schemaAt } from './SchemaNode.ts';
import { bareValue } from './shownValue.ts';
import { convertedValue, splitUnit, unitInWords } from './unitSuffixes.ts';
import { writtenQuantity } from './writtenQuantity.ts';

/** What the schema has against a scenario. */
export interface SchemaProblem extends ValueProblem {
  /** Of a key that is not known: the key beside it that was most likely meant. */
  meant?: string | undefined;
}

/** Tells of each of some problems whether it is a key that is missing only because it is written wrongly beside. */
export function misspelt(problems: readonly SchemaProblem[]): (problem: ValueProblem) => boolean {
  const meant = new PathSet(
    problems.flatMap((problem) =>
      problem.meant === undefined ? [] : [[...problem.path.slice(0, -1), problem.meant]],
    ),
  );
  return ({ code, path }) => code === 'SCENARIO_MISSING_KEY' && meant.has(path);
}

/** Keys under their first names, and what they are called now. */
const RENAMED_KEYS: Readonly<Record<string, string>> = {
  store: 'capacitor',
  store_V: 'capacitor_V',
  store_degC: 'capacitor_degC',
  floor_V: 'cutoff_V',
  below_floor_uA: 'below_cutoff_uA',
  stops_V: 'cutoff_V',
  slow_share: 'delayed_share',
  slow_hours: 'delayed_hours',
  slow_branches: 'delayed_branches',
  leakage_fold_V: 'leakage_e_fold_V',
  share: 'on_share',
  // Of a dim step.
  on_share: 'light_share',
  dark_below_V: 'night_below_V',
  dark_below_lux: 'night_below_lux',
  light_above_V: 'day_above_V',
  light_above_lux: 'day_above_lux',
};

/**
 * The problem about a key that the scenario does not know: one that was renamed, a known key in another unit, a
 * misspelt one, one that belongs elsewhere.
 *
 * in: path of the map; key; root, the whole scenario with its parts merged in; written, as the user wrote it
 * out: SCENARIO_WRONG_UNIT with the converted value, or SCENARIO_UNKNOWN_KEY
 */
export function unknownKey(path: KeyPath, key: string, root: unknown, written: unknown): SchemaProblem {
  const map = valueAt(root, path);
  const given = isMap(map) ? map[key] : undefined;
  const node = schemaAt(path, root) ?? {};
  const known = keysOf(node, map);
  const names = Object.keys(known);
  const number =
    typeof given === 'string'
      ? writtenQuantity(given, { type: 'number', unit: unitInWords(key) })?.value
      : given;
  const problem: SchemaProblem = {
    path: [...path, key],
    code: 'SCENARIO_UNKNOWN_KEY',
    got: `the key "${key}"`,
    expected: names.length === 0 ? 'no key here' : `one of ${names.join(', ')}`,
  };
  const renamed = nowCalled(key, names);
  if (renamed !== undefined) {
    return { ...problem, fix: `this key is now ${renamed}.`, meant: renamed };
  }
  if (given === null && /^\d/.test(key)) return { ...problem, fix: commaWithin(key, valueAt(written, path)) };
  const other = otherUnit(key, number, names);
  if (other !== undefined) {
    const [name, value] = other;
    const fix =
      valueAt(written, [...path, name]) === undefined
        ? `write ${name}: ${value}.`
        : `take it away; ${name} is given beside it.`;
    const expected = `${name}, ${expectedWords(known[name])}`;
    const got = `${key}: ${bareValue(given)}`;
    return { ...problem, code: 'SCENARIO_WRONG_UNIT', got, expected, fix, meant: name };
  }
  const ofKind = otherKind(node, key);
  const { stem } = splitUnit(key);
  const sameStem = names.filter((name) => splitUnit(name).stem === stem);
  const near = sameStem.length === 1 ? sameStem[0] : nearestWord(key, names);
  if (ofKind === undefined && near !== undefined) {
    return { ...problem, fix: `did you mean "${near}"?`, meant: near };
  }
  const home = ofKind ?? homeOf(key);
  return { ...problem, fix: home && `"${key}" belongs to ${home}.` };
}

/** The name among these that a key bears after one renaming or more. */
function nowCalled(key: string, names: readonly string[]): string | undefined {
  const next = Object.hasOwn(RENAMED_KEYS, key) ? RENAMED_KEYS[key]! : undefined;
  return next === undefined || names.includes(next) ? next : nowCalled(next, names);
}

/** What to write in place of a decimal comma within braces, which parts a number: { rated_V: 2,7 V }. */
function commaWithin(key: string, map: unknown): string {
  const entries = entriesOf(map);
  // A key that is a whole number alone stands first whatever the file has.
  const [name, whole] = entries[entries.findIndex(([each]) => each === key) - 1] ?? [];
  const meant = typeof whole === 'number' ? `write ${name}: ${whole}.${key}.` : 'write a point, as in 1.8.';
  return `a comma within { } ends the value before it: ${meant}`;
}

/** The name beside a key that is the same in another unit, and what to write there. */
function otherUnit(key: string, given: unknown, names: readonly string[]): [string, string] | undefined {
  for (const name of names) {
    const to = splitUnit(name);
    const from = splitUnit(key);
    const converted = convertedValue(typeof given === 'number' ? given : 1, from, to);
    if (converted === undefined) continue;
    if (Array.isArray(given)) {
      const values = given.map((each) => (typeof each === 'number' ? convertedValue(each, from, to)! : each));
      return [name, `[${values.map((each) => shortly(each)).join(', ')}]`];
    }
    return [name, typeof given === 'number' ? String(converted) : `..., the value in ${to.unit}`];
  }
  return undefined;
}

/** Of a number in a list four digits are enough. */
function shortly(value: unknown): string {
  return typeof value === 'number' ? String(Number(value.toPrecision(4))) : bareValue(value);
}

/** The kind that has a key where the kind that was chosen has not, in words. */
function otherKind(node: SchemaNode, key: string): string | undefined {
  const form = node.oneOf?.find(({ properties }) => properties && Object.hasOwn(properties, key));
  return form && `kind: ${String(form.properties!.kind?.const)}`;
}

/** Where else a key is known, in words. */
function homeOf(key: string): string | undefined {
  const look = (node: SchemaNode, words: string): string | undefined => {
    for (const form of formsOf(node, undefined)) {
      if (form.properties && Object.hasOwn(form.properties, key)) return words;
      for (const [name, next] of Object.entries(form.properties ?? {})) {
        const found = look(next, words === 'the root of the scenario' ? name : `${words}.${name}`);
        if (found !== undefined) return found;
      }
      if (typeof form.additionalProperties === 'object') {
        const found = look(form.additionalProperties, `${words}.<name>`);
        if (found !== undefined) return found;
      }
    }
    return undefined;
  };
  return look(mergedSchema(), 'the root of the scenario');
}
