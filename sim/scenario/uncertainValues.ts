import type { KeyPath } from '../common/document.ts';
import { REPLACED_KEYS } from './partSection.ts';
import { PARTS, type Part, type PartKind } from './parts.ts';
import { isMap, valueAt } from './paths.ts';
import type { Json, Scenario } from './Scenario.ts';
import { schemaAt } from './SchemaNode.ts';

export type KeyValues = Readonly<Record<string, Json>>;

/** KeyValues of a scenario that nobody stated, and what they may be. */
export interface UncertainValue {
  /** KeyValues from the root down to the section they stand in. */
  section: readonly string[];
  from: 'part' | 'default';
  assumed: KeyValues;
  /** Of a part the poor and the good end of what is sold; of a default both ends in no order. */
  ends: readonly [KeyValues, KeyValues];
}

/**
 * What a scenario rests on without having been told, as far as its parts and defaults say how far off it may be.
 *
 * in: scenario, as loadScenario gives it
 * out: in the order of the scenario; without keys that readings or other keys have taken the place of
 */
export function uncertainValues(
  scenario: Pick<Scenario, 'origins' | 'resolved' | 'lamps'>,
): UncertainValue[] {
  const { origins, resolved } = scenario;
  const found: UncertainValue[] = [];
  const kinds = new Map(origins.map(({ path, kind }) => [JSON.stringify(path), kind]));
  const stands = (section: KeyPath, key: string, from: UncertainValue['from']) =>
    kinds.get(JSON.stringify([...section, key])) === from && !isSettled(scenario, section, key);
  for (const { path, kind, value } of origins) {
    const section = path.slice(0, -1);
    const key = path.at(-1)!;
    if (key === 'part' && typeof value === 'string') {
      for (const { poor, good } of partAt(section, value)?.spans ?? []) {
        const keys = Object.keys(poor);
        if (!keys.every((each) => stands(section, each, 'part'))) continue;
        const assumed = Object.fromEntries(
          keys.map((each) => [each, valueAt(resolved, [...section, each]) as Json]),
        );
        found.push({ section, from: 'part', assumed, ends: [poor as KeyValues, good as KeyValues] });
      }
    }
    const between = kind === 'default' ? schemaAt(path, resolved)?.between : undefined;
    if (between === undefined || !stands(section, key, 'default')) continue;
    const [one, other] = between;
    found.push({
      section,
      from: 'default',
      assumed: { [key]: value },
      ends: [{ [key]: one }, { [key]: other }],
    });
  }
  return found;
}

function partAt(section: KeyPath, name: string): Part | undefined {
  return (PARTS as Readonly<Record<string, Readonly<Record<string, Part>>>>)[section.at(-1)!]?.[name];
}

/** Whether readings, or a key that takes its place, have settled a key of a lamp. */
function isSettled({ lamps, resolved }: Pick<Scenario, 'lamps' | 'resolved'>, section: KeyPath, key: string) {
  const [root, name, kind] = section;
  if (root !== 'lamps') return false;
  const settled = lamps.find((lamp) => lamp.name === name)?.settled[kind as 'cell'] as KeyValues | undefined;
  if (!isMap(settled)) return false;
  const replaced = Object.entries(REPLACED_KEYS[kind as PartKind] ?? {});
  return (
    replaced.some(([by, keys]) => settled[by] !== undefined && keys.includes(key)) ||
    JSON.stringify(settled[key]) !== JSON.stringify(valueAt(resolved, [...section, key]))
  );
}
