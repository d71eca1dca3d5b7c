import type { KeyPath } from '../common/document.ts';
import { nearestWord } from '../common/hints.ts';
import type { Report } from '../common/InputProblem.ts';
import { LIBRARY } from './PartShelf.ts';
import { PARTS, type PartKind } from './parts.ts';
import { entriesOf, isMap } from './paths.ts';
import { currencySchema, nameKey } from './schema.ts';
import { bareValue, shownValue } from './shownValue.ts';

type Keys = Record<string, unknown>;

/** A part as a file of own parts has it. */
export interface PartInFile {
  kind: PartKind;
  name: string;
  /** With its note. */
  values: Keys;
}

export const KINDS = Object.keys(PARTS) as PartKind[];
const FILE_KEYS = ['format', 'currency', 'parts'];

/** Keys that say how a lamp uses a part, not what the part is. */
const KEYS_OF_LAMPS = ['part', 'parallel', 'series', 'count', 'in_series', 'limiter'];

/**
 * The parts of a file of own parts, with problems about whatever is not a value of a part.
 *
 * in: written, the file; report, takes what is wrong, with paths in the file
 */
export function partsInFile(written: Keys, report: Report): PartInFile[] {
  checkFile(written, report);
  return partsIn(written.parts, report);
}

function checkFile(written: Keys, report: Report): void {
  unknownKeys(written, FILE_KEYS, [], report);
  if (written.format !== 1) {
    report({
      code: written.format === undefined ? 'SCENARIO_MISSING_KEY' : 'SCENARIO_WRONG_TYPE',
      path: ['format'],
      got: written.format === undefined ? 'nothing' : shownValue(written.format),
      expected: '1 (version of the way such files are written)',
      fix: 'add format: 1.',
    });
  }
  if (written.currency === undefined || currencySchema.safeParse(written.currency).success) return;
  report({
    code: 'SCENARIO_WRONG_TYPE',
    path: ['currency'],
    got: shownValue(written.currency),
    expected: 'one word, such as EUR',
  });
}

/** All parts that are maps under a name, with problems about the others. */
function partsIn(parts: unknown, report: Report): PartInFile[] {
  if (!isMap(parts)) {
    noMap(parts, ['parts'], 'parts by kind and name, as in cell: { window-cell: { ... } }', report);
    return [];
  }
  unknownKeys(parts, KINDS, ['parts'], report);
  return KINDS.flatMap((kind) => {
    const named = parts[kind];
    if (named === undefined) return [];
    if (!isMap(named)) noMap(named, ['parts', kind], `each ${kind} under a name`, report);
    return entriesOf(named).flatMap(([name, values]): PartInFile[] => {
      if (isMap(values)) {
        checkPart({ kind, name, values }, report);
        return [{ kind, name, values }];
      }
      noMap(values, ['parts', kind, name], `the keys of a ${kind} with their values`, report);
      return [];
    });
  });
}

/** The name of a part, its note, and keys that no part has. */
function checkPart({ kind, name, values }: PartInFile, report: Report): void {
  const { note } = values;
  const path = ['parts', kind, name];
  if (!nameKey.safeParse(name).success) {
    report({
      code: 'SCENARIO_WRONG_TYPE',
      path,
      got: `the name "${name}"`,
      expected: 'a name that begins with a letter, without < > : " / \\ | ? *, of 64 characters at most',
      fix: 'choose a name such as window-cell.',
    });
  }
  if (Object.hasOwn(LIBRARY[kind], name)) {
    report({
      code: 'SCENARIO_CONFLICT',
      path,
      got: `a ${kind} named ${name}, as one of the parts library is`,
      expected: 'a name of its own',
      fix: `call it own-${name}, here and where it is used.`,
    });
  }
  if (note !== undefined && typeof note !== 'string') {
    report({
      code: 'SCENARIO_WRONG_TYPE',
      path: [...path, 'note'],
      got: bareValue(note),
      expected: 'text (a word on the part)',
      fix: 'write it in quotes.',
    });
  }
  for (const key of KEYS_OF_LAMPS) {
    if (values[key] === undefined) continue;
    report({
      code: 'SCENARIO_CONFLICT',
      path: [...path, key],
      got: `${key} in a part`,
      expected: 'the values of one part',
      fix: key === 'part' ? 'write its values out.' : `write ${key} in the lamp, beside part: ${name}.`,
    });
  }
}

function unknownKeys(map: Keys, known: readonly string[], path: KeyPath, report: Report): void {
  for (const key of Object.keys(map)) {
    if (known.includes(key)) continue;
    const near = nearestWord(key, known);
    report({
      code: 'SCENARIO_UNKNOWN_KEY',
      path: [...path, key],
      got: `the key "${key}"`,
      expected: `one of ${known.join(', ')}`,
      ...(near !== undefined && { fix: `did you mean "${near}"?` }),
    });
  }
}

function noMap(value: unknown, path: KeyPath, expected: string, report: Report): void {
  const isNothing = value === undefined || value === null;
  report({
    code: isNothing ? 'SCENARIO_MISSING_KEY' : 'SCENARIO_WRONG_TYPE',
    path,
    got: isNothing ? 'nothing' : shownValue(value),
    expected,
  });
}
