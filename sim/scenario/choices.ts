import type * as z from 'zod';
import type { TextDocument } from '../common/document.ts';
import { nearestWord } from '../common/hints.ts';
import { type Report, reportBelow, type ValueProblem } from '../common/InputProblem.ts';
import { capacitorSchema } from '../lamp/capacitor/schema.ts';
import { cellSchema } from '../lamp/cell/schema.ts';
import { diodeSchema } from '../lamp/diode/schema.ts';
import { driverSchema } from '../lamp/driver/schema.ts';
import { jarSchema } from '../lamp/jar/schema.ts';
import { ledSchema } from '../lamp/led/schema.ts';
import { scheduleSchema } from '../lamp/schedule/schema.ts';
import { spotSchema } from '../spot/schema.ts';
import { choiceRange } from './choiceRange.ts';
import { issueProblems } from './issueProblems.ts';
import type { PartShelf } from './PartShelf.ts';
import { partSection } from './partSection.ts';
import type { PartKind } from './parts.ts';
import { entriesOf, isMap } from './paths.ts';
import type { Choice, Choices, Json } from './Scenario.ts';
import { keysOf, NEVER_CHOSEN, type SchemaNode, schemaAt } from './SchemaNode.ts';
import { bareValue, shownValue } from './shownValue.ts';
import { unknownKey } from './unknownKey.ts';

/** Schemas of the sections of which keys may be chosen; a driver has one for each kind. */
const SECTIONS: Readonly<Record<Exclude<Choice['section'], 'spot'>, readonly z.ZodObject[]>> = {
  stand: [spotSchema],
  cell: [cellSchema],
  diode: [diodeSchema],
  capacitor: [capacitorSchema],
  driver: driverSchema.options,
  led: [ledSchema],
  jar: [jarSchema],
  schedule: [scheduleSchema],
};

/** What stays of a section when another part is taken for it: how many there are, and what is built around it. */
export const KEPT_BESIDE_PART: Readonly<Record<string, readonly string[]>> = {
  cell: ['parallel', 'series'],
  capacitor: ['parallel', 'series', 'balancing_kohm', 'limiter'],
  led: ['count', 'in_series'],
};

/** Of a driver the inductor is bought apart: it may be chosen beside the part, and is that of the part unless it is. */
const BESIDE_PART: typeof KEPT_BESIDE_PART = { ...KEPT_BESIDE_PART, driver: ['inductance_uH'] };

/** Where choices are read from. */
interface Written {
  /** The scenario, its numbers read and its parts merged in. */
  value: Record<string, unknown>;
  document: TextDocument;
  shelf: PartShelf;
}

/**
 * What a scenario lets choose, ranges and all written out as values.
 *
 * in: written; report, takes what no choice can be, with paths from the root of the scenario
 * out: undefined where there are no choices
 */
export function choicesOf(written: Written, report: Report): Choices | undefined {
  const { choices } = written.value;
  if (!isMap(choices)) return undefined;
  return entriesOf(choices).flatMap(([section, given]): Choice[] => {
    if (section === 'spot') {
      return choiceOf(written, 'spot', '', given, report, (value, note) => checkSpot(written, value, note));
    }
    if (!isMap(given) || !Object.hasOwn(SECTIONS, section)) return [];
    const name = section as keyof typeof SECTIONS;
    checkTogether(name, given, reportBelow(report, 'choices', name));
    return Object.entries(given).flatMap(([key, values]) => {
      if (!isChosen(written, name, key, report)) return [];
      const check = (value: Json, note: Report) =>
        key === 'part'
          ? checkPart(written, name as PartKind, value, note)
          : checkValue(name, key, value, note);
      return choiceOf(written, name, key, values, report, check);
    });
  });
}

/** Designs that choices make, were all of them to be. */
export function countOf(choices: Choices): number {
  return choices.reduce((count, { values }) => count * values.length, 1);
}

/** Whether a key may be chosen; reports why not. */
function isChosen(
  { value, document }: Written,
  section: keyof typeof SECTIONS,
  key: string,
  report: Report,
): boolean {
  const path = ['choices', section];
  if (keysOf(schemaAt(path, value)!, undefined)[key] !== undefined) return true;
  report(notChosen(section, key) ?? unknownKey(path, key, value, document.value));
  return false;
}

/** Why a key that is known is no choice; undefined where the section has no such key. */
function notChosen(section: keyof typeof SECTIONS, key: string): ValueProblem | undefined {
  if (section === 'stand' || !SECTIONS[section].some(({ shape }) => Object.hasOwn(shape, key)))
    return undefined;
  const problem = {
    code: 'SCENARIO_WRONG_TYPE',
    path: ['choices', section, key],
    got: `${key} as a choice`,
  } as const;
  if (NEVER_CHOSEN.includes(key)) {
    const expected = 'a key of how the lamp is built: what a part costs is no choice';
    return { ...problem, expected, fix: `write ${key} beside the part, in the lamp or in your parts file.` };
  }
  const fix =
    section === 'schedule'
      ? 'write it into the lamp.'
      : `write each as a part of its own into your parts file, and choose ${section}: { part: [...] }.`;
  const why =
    key === 'kind' ? `another kind of ${section} is another part` : `${key} is a list, or keys of its own`;
  return { ...problem, expected: `a key that takes one value: ${why}`, fix };
}

/** Keys of a section that cannot be chosen together. */
function checkTogether(section: keyof typeof SECTIONS, given: Record<string, unknown>, report: Report): void {
  const both = (key: string, other: string, expected: string, fix: string) =>
    report({ code: 'SCENARIO_CONFLICT', path: [key], got: `both ${other} and ${key}`, expected, fix });
  if (section === 'schedule' && 'hours' in given && 'until' in given)
    both('until', 'hours', 'one of them', 'take one away.');
  if (!('part' in given)) return;
  const beside = ['part', ...(BESIDE_PART[section] ?? [])];
  for (const key of Object.keys(given)) {
    if (beside.includes(key)) continue;
    const others = beside.length > 1 ? `; only ${beside.slice(1).join(', ')} may stand beside it` : '';
    both(
      key,
      'part',
      `one of them: each part brings its own ${key}${others}`,
      `take ${key} away, or write parts with other values into your parts file.`,
    );
  }
}

/** One choice, its ranges written out; none where nothing of it is sound. */
function choiceOf(
  { value: root, document }: Written,
  section: Choice['section'],
  key: string,
  given: unknown,
  report: Report,
  check: (value: Json, report: Report) => boolean,
): Choice[] {
  const path = key === '' ? ['choices', section] : ['choices', section, key];
  const node = schemaAt(path, root)!;
  const items = Array.isArray(given) ? (given as Json[]) : [given as Json];
  if (given === null) {
    report({
      code: 'SCENARIO_MISSING_KEY',
      path,
      got: 'no value',
      expected: 'a value, a list or a range',
      fix: `write what ${key || section} may be, or take the key away.`,
    });
    return [];
  }
  if (items.length === 0) {
    report({
      code: 'SCENARIO_OUT_OF_RANGE',
      path,
      got: 'an empty list',
      expected: 'a value at least',
      fix: 'write the values that it may have, or take the key away.',
    });
    return [];
  }
  const seen = new Set<string>();
  const values = items.flatMap((item, i) => {
    const below = reportBelow(report, ...path, ...(Array.isArray(given) ? [i] : []));
    const range = typeof item === 'string' ? choiceRange(item, node) : undefined;
    if (range?.problem !== undefined) {
      below({ ...range.problem, path: [] });
      return [];
    }
    const found = range === undefined ? [takesAway(item, node) ? null : item] : range.values;
    // Of a range the first that cannot be says it.
    if (!found.every((value) => check(value, below))) return [];
    const twice = found.find((value) => seen.has(JSON.stringify(value)));
    for (const value of found) seen.add(JSON.stringify(value));
    if (twice === undefined) return found;
    below({
      code: 'SCENARIO_CONFLICT',
      path: [],
      got: `${bareValue(twice)} a second time`,
      expected: 'each value once',
      fix: 'take one of the two away.',
    });
    return [];
  });
  if (values.length === 0) return [];
  return [{ section, key, unit: node.unit, values, ...document.placeOf(path) }];
}

/** Whether a value says that there is none of an optional key. */
function takesAway(value: Json, { anyOf = [] }: SchemaNode): boolean {
  return value === 'none' && anyOf.some(({ const: only }) => only === 'none');
}

function checkSpot({ value: root }: Written, value: Json, report: Report): boolean {
  const names = entriesOf(root.spots).map(([name]) => name);
  if (names.includes(String(value))) return true;
  const near = nearestWord(String(value), names);
  report({
    code: 'SCENARIO_OUT_OF_RANGE',
    path: [],
    got: shownValue(value),
    expected: `one of the spots: ${names.join(', ')}`,
    fix: near === undefined ? 'name a spot of this file.' : `did you mean "${near}"?`,
  });
  return false;
}

function checkPart({ shelf }: Written, kind: PartKind, value: Json, report: Report): boolean {
  if (typeof value === 'string')
    return partSection(kind, { part: value }, shelf, reportAt(report)) !== undefined;
  report({
    code: 'SCENARIO_WRONG_TYPE',
    path: [],
    got: shownValue(value),
    expected: `the name of a ${kind}`,
    fix: 'write the name of a part, or a list of names.',
  });
  return false;
}

/** A report of problems at a choice, whose path says no more of it. */
function reportAt(report: Report): Report {
  return (problem) => report({ ...problem, path: [] });
}

/** Whether a key's own schema takes a value, whatever stands beside it; reports why not. */
function checkValue(section: keyof typeof SECTIONS, key: string, value: Json, report: Report): boolean {
  const path = section === 'stand' ? ['spots', '', key] : ['lamps', '', section, key];
  const shapes = SECTIONS[section].flatMap(({ shape }) => (Object.hasOwn(shape, key) ? [shape[key]!] : []));
  if (value === null) return checkTaken(section, key, report);
  const outcomes = shapes.map((shape) => shape.safeParse(value) as z.ZodSafeParseResult<unknown>);
  if (outcomes.some(({ success }) => success)) return true;
  const root = path.reduceRight<unknown>((below, step) => ({ [step]: below }), value);
  for (const problem of issueProblems(outcomes[0]!.error!.issues as never, root, root, path))
    report({ ...problem, path: problem.path.slice(path.length) });
  return false;
}

/** Whether a key can be taken away. */
function checkTaken(section: keyof typeof SECTIONS, key: string, report: Report): boolean {
  const { anyOf = [] } = schemaAt(['choices', section, key], {})!;
  if (anyOf.some(({ const: only }) => only === 'none')) return true;
  report({
    code: 'SCENARIO_MISSING_KEY',
    path: [],
    got: 'none',
    expected: `a value: without ${key} there is no such ${section}`,
    fix: 'take it out of the list.',
  });
  return false;
}
