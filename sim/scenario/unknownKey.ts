import type { KeyPath } from '../common/document.ts';
import { nearestWord } from '../common/hints.ts';
import type { ValueProblem } from '../common/InputProblem.ts';
import { expectedWords } from './expectedWords.ts';
import { isMap, valueAt } from './paths.ts';
import { formsOf, keysOf, mergedSchema, type SchemaNode, schemaAt } from './SchemaNode.ts';
import { convertedValue, splitUnit } from './unitSuffixes.ts';

/** A key the scenario does not know, and the key beside it that was meant, if one is near. */
export interface UnknownKey {
  problem: ValueProblem;
  meant: string | undefined;
}

/**
 * The problem about a key that the scenario does not know: a known key in another unit, a misspelt one, one that
 * belongs elsewhere.
 *
 * in: path of the map; key; root, the whole scenario with its parts merged in; written, as the user wrote it
 * out: SCENARIO_WRONG_UNIT with the converted value, or SCENARIO_UNKNOWN_KEY
 */
export function unknownKey(path: KeyPath, key: string, root: unknown, written: unknown): UnknownKey {
  const map = valueAt(root, path);
  const given = isMap(map) ? map[key] : undefined;
  const node = schemaAt(path, root) ?? {};
  const known = keysOf(node, map);
  const names = Object.keys(known);
  const place = { path: [...path, key] };

  const typed = splitUnit(key);
  for (const name of names) {
    const converted = convertedValue(typeof given === 'number' ? given : 1, typed, splitUnit(name));
    if (converted === undefined) continue;
    const taken = valueAt(written, [...path, name]) !== undefined;
    const fix = taken
      ? `take it away; ${name} is given beside it.`
      : `write ${name}: ${typeof given === 'number' ? converted : `..., the value in ${splitUnit(name).unit}`}.`;
    const problem: ValueProblem = {
      ...place,
      code: 'SCENARIO_WRONG_UNIT',
      got: `${key}: ${String(given)}`,
      expected: `${name}, ${expectedWords(known[name])}`,
      fix,
    };
    return { problem, meant: name };
  }

  const ofKind = otherKind(node, key);
  const sameStem = names.filter((name) => splitUnit(name).stem === typed.stem);
  const meant =
    ofKind !== undefined ? undefined : sameStem.length === 1 ? sameStem[0] : nearestWord(key, names);
  const problem: ValueProblem = {
    ...place,
    code: 'SCENARIO_UNKNOWN_KEY',
    got: `the key "${key}"`,
    expected: names.length === 0 ? 'no key here' : `one of ${names.join(', ')}`,
  };
  if (meant !== undefined) return { problem: { ...problem, fix: `did you mean "${meant}"?` }, meant };
  const home = ofKind ?? homeOf(key);
  return {
    problem: home === undefined ? problem : { ...problem, fix: `"${key}" belongs to ${home}.` },
    meant,
  };
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
