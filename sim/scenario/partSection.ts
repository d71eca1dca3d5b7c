import { nearestWord } from '../common/hints.ts';
import type { Report } from '../common/InputProblem.ts';
import { type PartShelf, PRICE_KEYS, type ShelfPart } from './PartShelf.ts';
import type { PartKind } from './parts.ts';
import { bareValue } from './shownValue.ts';

type Keys = Readonly<Record<string, unknown>>;

/** Parts under their first names, and what they are called now. */
const RENAMED_PARTS: Readonly<Record<string, string>> = {
  'medium-store': 'medium-capacitor',
  'coil-driver': 'inductor-driver',
};

/**
 * One section of a lamp, or the cover of a spot, with the values of the part that it names under the keys beside it.
 *
 * in: kind, the key it stands under; given, the section as it is written; shelf, the parts there are; report, takes an
 *   unknown part and keys that rule each other out, with paths below the section
 * out: a new section, or the same where it names no part; undefined where its part could not be used
 */
export function partSection(kind: PartKind, given: Keys, shelf: PartShelf, report: Report): Keys | undefined {
  reportReplaced(kind, given, report);
  if (typeof given.part !== 'string') return given;
  const part = findPart(kind, given.part, shelf, report);
  if (part === undefined || !isOfKind(part, given, report)) return undefined;
  // A price beside a part is the whole of it.
  const isPriced = PRICE_KEYS.some((key) => key in given);
  const unused: readonly string[] = isPriced ? PRICE_KEYS : [];
  const values = Object.entries(part.values).filter(([key]) => !unused.includes(key));
  return { ...Object.fromEntries(values), ...given };
}

function findPart(kind: PartKind, wanted: string, shelf: PartShelf, report: Report): ShelfPart | undefined {
  const parts = shelf[kind];
  if (Object.hasOwn(parts, wanted)) return parts[wanted];
  const names = Object.keys(parts);
  const renamed = Object.hasOwn(RENAMED_PARTS, wanted) ? RENAMED_PARTS[wanted] : undefined;
  const near = renamed ?? nearestWord(wanted, names);
  const other = Object.entries(shelf).find(([, each]) => Object.hasOwn(each, wanted))?.[0];
  const nearestFirst = near === undefined ? names : [near, ...names.filter((name) => name !== near)];
  const where = names.some((name) => parts[name]!.own)
    ? 'the parts library or of your own parts'
    : 'the parts library';
  report({
    code: 'SCENARIO_UNKNOWN_PART',
    path: ['part'],
    got: `"${wanted}"${other === undefined ? '' : `, which is a ${other}`}`,
    expected: `a ${kind} of ${where}: ${nearestFirst.join(', ')}`,
    fix:
      renamed !== undefined
        ? `this part is now ${renamed}.`
        : near !== undefined
          ? `did you mean "${near}"?`
          : 'name one of these, or give its values.',
  });
  return undefined;
}

/** Whether a part may stand beside the kind that is given: one that says what kind it is allows no other. */
function isOfKind(part: ShelfPart, given: Keys, report: Report): boolean {
  const { kind } = part.values;
  if (kind === undefined || given.kind === undefined || given.kind === kind) return true;
  report({
    code: 'SCENARIO_CONFLICT',
    path: ['kind'],
    got: `kind ${bareValue(given.kind)} with part ${String(given.part)}`,
    expected: `kind ${String(kind)}, which that part is`,
    fix: 'take kind or part away.',
  });
  return false;
}

function reportReplaced(kind: PartKind, given: Keys, report: Report): void {
  for (const [key, replaced] of Object.entries(REPLACED_KEYS[kind])) {
    if (given[key] === undefined) continue;
    for (const other of replaced) {
      if (given[other] === undefined) continue;
      report({
        code: 'SCENARIO_CONFLICT',
        path: [other],
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
