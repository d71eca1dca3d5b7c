import type { KeyPath } from '../common/document.ts';
import { nearestWord } from '../common/hints.ts';
import type { Report } from '../common/InputProblem.ts';
import { spotSchema } from '../spot/schema.ts';
import { LAMP_PARTS, PARTS, type Part, type PartKind } from './parts.ts';
import { isMap } from './paths.ts';
import { bareValue } from './shownValue.ts';

type Keys = Record<string, unknown>;

/** Parts under their first names, and what they are called now. */
const RENAMED_PARTS: Readonly<Record<string, string>> = {
  'medium-store': 'medium-capacitor',
  'coil-driver': 'inductor-driver',
};

/** A scenario with its library parts merged in. */
export interface MergedScenario {
  value: Keys;
  /** What each key that a part supplied came from, by `JSON.stringify` of its path. */
  supplied: ReadonlyMap<string, string>;
  /** Sections whose part could not be used: what they lack is not their fault. */
  unusable: readonly KeyPath[];
}

/**
 * The scenario with the values of its library parts under the keys beside them, and the usual cover over every cell
 * that has none stated.
 *
 * in: value, as the user wrote it; report, takes unknown parts and keys that rule each other out
 * out: a new value; the one handed in is left alone
 */
export function mergeParts(value: Keys, report: Report): MergedScenario {
  const supplied = new Map<string, string>();
  const unusable: KeyPath[] = [];
  const merge = (kind: PartKind, section: unknown, path: KeyPath): unknown => {
    if (!isMap(section)) return section;
    reportReplaced(kind, section, path, report);
    if (typeof section.part !== 'string') return section;
    const part = findPart(kind, section, path, report);
    if (part === undefined) {
      unusable.push(path);
      return section;
    }
    for (const key of Object.keys(part.values)) {
      if (key in section) continue;
      supplied.set(JSON.stringify([...path, key]), `part ${section.part} (${part.note})`);
    }
    return { ...part.values, ...section };
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

function findPart(kind: PartKind, section: Keys, path: KeyPath, report: Report): Part<object> | undefined {
  const shelf: Readonly<Record<string, Part<object>>> = PARTS[kind];
  const wanted = String(section.part);
  const part = Object.hasOwn(shelf, wanted) ? shelf[wanted] : undefined;
  if (part === undefined) {
    const names = Object.keys(shelf);
    const renamed = Object.hasOwn(RENAMED_PARTS, wanted) ? RENAMED_PARTS[wanted] : undefined;
    const near = renamed ?? nearestWord(wanted, names);
    const other = Object.entries(PARTS).find(([, parts]) => Object.hasOwn(parts, wanted))?.[0];
    const nearestFirst = near === undefined ? names : [near, ...names.filter((name) => name !== near)];
    report({
      code: 'SCENARIO_UNKNOWN_PART',
      path: [...path, 'part'],
      got: `"${wanted}"${other === undefined ? '' : `, which is a ${other}`}`,
      expected: `a ${kind} of the parts library: ${nearestFirst.join(', ')}`,
      fix:
        renamed !== undefined
          ? `this part is now ${renamed}.`
          : near !== undefined
            ? `did you mean "${near}"?`
            : 'name one of these, or give its values.',
    });
    return undefined;
  }
  const kindOfPart = (part.values as Keys).kind;
  if (kindOfPart === undefined || section.kind === undefined || section.kind === kindOfPart) return part;
  report({
    code: 'SCENARIO_CONFLICT',
    path: [...path, 'kind'],
    got: `kind ${bareValue(section.kind)} with part ${wanted}`,
    expected: `kind ${String(kindOfPart)}, which that part is`,
    fix: 'take kind or part away.',
  });
  return undefined;
}

function reportReplaced(kind: PartKind, section: Keys, path: KeyPath, report: Report): void {
  for (const [key, replaced] of Object.entries(REPLACED_KEYS[kind])) {
    if (section[key] === undefined) continue;
    for (const other of replaced) {
      if (section[other] === undefined) continue;
      report({
        code: 'SCENARIO_CONFLICT',
        path: [...path, other],
        got: `both ${key} and ${other}`,
        expected: `one of them: ${key} takes the place of ${other}`,
        fix: `take ${other} away, or ${key}.`,
      });
    }
  }
}

const words = (text: string): string[] => text.split(' ');

/** Keys that, where they are given, take the place of others of the same part: those then have no effect. */
export const REPLACED_KEYS: Readonly<Record<PartKind, Readonly<Record<string, readonly string[]>>>> = {
  cell: {
    raw: words(
      'readings short_circuit_mA open_circuit_V best_current_mA best_voltage_V shunt_V low_light_point',
    ),
    low_light_point: ['shunt_V'],
  },
  diode: {
    switch_on_ohm: words('raw readings forward_drop ideality barrier_eV'),
    raw: words('readings forward_drop ideality series_ohm'),
  },
  capacitor: {
    raw: words(
      'readings capacitance_F esr_mohm esr_factor_minus20 esr_factor_minus40 capacitance_rise delayed_share delayed_hours leakage_uA leakage_rest_h leakage_law leakage_e_fold_V leakage_doubling_K',
    ),
  },
  driver: {},
  led: { raw: ['readings', 'table'] },
  jar: { fixed_degC: ['readings', 'rise_K_full_sun', 'time_constant_min'] },
  cover: { raw: ['refractive_index', 'absorption_per_m', 'thickness_mm'] },
};
