import { createHash } from 'node:crypto';
import type * as z from 'zod';
import { type KeyPath, readDocument, type TextDocument } from '../common/document.ts';
import { nearestWord } from '../common/hints.ts';
import type { Report } from '../common/InputProblem.ts';
import { lampSchema } from '../lamp/schema.ts';
import { coverSchema } from '../spot/cover/schema.ts';
import type { NamedBytes } from '../tables/TableSource.ts';
import { issueProblems } from './issueProblems.ts';
import type { MergedScenario } from './mergeParts.ts';
import { LIBRARY, libraryIn, type PartShelf, type ShelfPart } from './PartShelf.ts';
import { PARTS, type PartKind } from './parts.ts';
import { entriesOf, isMap, valueAt } from './paths.ts';
import { type ReadScenario, readQuantities } from './readQuantities.ts';
import { scenarioFileIfThere } from './scenarioFile.ts';
import { currencySchema, nameKey } from './schema.ts';
import { bareValue, shownValue } from './shownValue.ts';
import { misspelt, type SchemaProblem } from './unknownKey.ts';

type Keys = Record<string, unknown>;

/** The maker's own parts, from a file that scenarios share. */
export interface OwnParts {
  /** The file under the name that results may show, and the SHA-256 of its bytes. */
  file: string;
  sha256: string;
  currency: string | undefined;
  /** The library and these. */
  shelf: PartShelf;
  document: TextDocument;
  /** Those of its numbers that were written with a unit, with paths in the file. */
  texts: ReadScenario['texts'];
  /** What is wrong in the file, with paths in it. */
  problems: readonly SchemaProblem[];
}

const KINDS = Object.keys(PARTS) as PartKind[];
const FILE_KEYS = ['format', 'currency', 'parts'];

/** Keys that say how a lamp uses a part, not what the part is. */
const KEYS_OF_LAMPS = ['part', 'parallel', 'series', 'count', 'in_series', 'limiter'];

/**
 * The own parts that a scenario names.
 *
 * in: value, the scenario, checked or not; folder, absolute, it lies in; report, takes what is wrong in the scenario
 * out: undefined where it names none, or their file cannot be read
 * throws: InputProblem about that file, where it is no YAML
 */
export function ownParts(value: Keys, folder: string, report: Report): OwnParts | undefined {
  const named = valueAt(value, ['parts', 'file']);
  const file = typeof named === 'string' && named !== '' ? scenarioFileIfThere({ folder }, named) : undefined;
  if (file === undefined) return undefined;
  const { currency } = value;
  const own = partsOfFile(file, currency);
  if (currency !== undefined && own.currency !== undefined && currency !== own.currency) {
    const { line } = own.document.placeOfKey(['currency']);
    report({
      code: 'SCENARIO_CONFLICT',
      path: ['currency'],
      got: `${bareValue(currency)}, and ${own.currency} in ${own.file} (line ${line})`,
      expected: 'one currency, for nothing is converted',
      fix: 'write all prices in one of them.',
    });
  }
  return own;
}

/**
 * The own parts of a file, each checked by the schema of the section it stands for. What a section needs may be missing:
 * the scenario can have it beside the part.
 *
 * throws: InputProblem where it is no YAML
 */
function partsOfFile(file: NamedBytes, stated: unknown): OwnParts {
  const document = readDocument(file);
  const problems: SchemaProblem[] = [];
  const report: Report = (problem) => problems.push(problem);
  const written = document.value;
  checkFile(written, report);
  const found = partsIn(written.parts, report);
  const root = rootOf(found);
  const read = readQuantities(root);
  const own = found.map(({ kind, name }) => {
    const above = sectionOf(kind, name);
    const { note, ...values } = valueAt(read.value, above) as Keys;
    checkPart(kind, name, values, note, report);
    const issues = schemaOf(kind)
      .safeParse(values)
      .error?.issues.filter((issue) => issue.path[0] === 'kind' || !isMissing(issue, values));
    const ofPart = issueProblems(issues ?? [], read.value, root, above);
    const isMisspelt = misspelt(ofPart);
    for (const problem of ofPart) {
      if (!isMisspelt(problem)) problems.push({ ...problem, path: pathInFile(kind, name, problem.path) });
    }
    const part: ShelfPart = {
      note: typeof note === 'string' ? note : 'own part',
      values,
      spans: [],
      own: true,
    };
    return { kind, name, part };
  });
  const currency = currencySchema.safeParse(written.currency).data;
  const library = libraryIn(stated ?? currency);
  const shelf = KINDS.map((kind) => {
    const ofKind = own.filter((each) => each.kind === kind && !Object.hasOwn(library[kind], each.name));
    return [kind, { ...library[kind], ...Object.fromEntries(ofKind.map(({ name, part }) => [name, part])) }];
  });
  return {
    file: file.name,
    sha256: createHash('sha256').update(file.bytes).digest('hex'),
    currency,
    shelf: Object.fromEntries(shelf) as PartShelf,
    document,
    texts: read.texts.map(({ path, text }) => {
      const [above, name, kind] = path as readonly string[];
      return { path: pathInFile((above === 'spots' ? 'cover' : kind) as PartKind, name!, path), text };
    }),
    problems,
  };
}

/** Where in the file of own parts a key of a scenario stands that one of them supplied; undefined where none did. */
export function pathInOwnFile(
  path: KeyPath,
  { supplied }: Pick<MergedScenario, 'supplied'>,
): KeyPath | undefined {
  const by = supplied.get(JSON.stringify(path.slice(0, KEY_DEPTH)));
  return by?.part.own ? pathInFile(by.kind, by.name, path) : undefined;
}

/** Steps from the root of a scenario to a key of a part. */
const KEY_DEPTH = 4;

function pathInFile(kind: PartKind, name: string, path: KeyPath): KeyPath {
  return ['parts', kind, name, ...path.slice(KEY_DEPTH - 1)];
}

/** Where in a scenario a part would stand, were the lamp or spot called as it is. */
function sectionOf(kind: PartKind, name: string): string[] {
  return kind === 'cover' ? ['spots', name, kind] : ['lamps', name, kind];
}

interface Found {
  kind: PartKind;
  name: string;
  values: Keys;
}

/** The parts as sections of a scenario, so that they are read and judged as those are. */
function rootOf(found: readonly Found[]): Keys {
  const root: Record<string, Record<string, Keys>> = { lamps: {}, spots: {} };
  for (const { kind, name, values } of found) {
    const owners = root[kind === 'cover' ? 'spots' : 'lamps']!;
    owners[name] = { ...owners[name], [kind]: values };
  }
  return root;
}

function schemaOf(kind: PartKind): z.ZodType {
  return kind === 'cover' ? coverSchema : lampSchema.shape[kind];
}

/** Whether a section only lacks a key, which the scenario may have beside the part. */
function isMissing({ path }: z.core.$ZodIssue, values: Keys): boolean {
  return path.length === 1 && values[String(path[0])] === undefined;
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

/** All parts of the file that are maps under a name, with problems about the others. */
function partsIn(parts: unknown, report: Report): Found[] {
  if (!isMap(parts)) {
    noMap(parts, ['parts'], 'parts by kind and name, as in cell: { window-cell: { ... } }', report);
    return [];
  }
  unknownKeys(parts, KINDS, ['parts'], report);
  return KINDS.flatMap((kind) => {
    const named = parts[kind];
    if (named === undefined) return [];
    if (!isMap(named)) noMap(named, ['parts', kind], `each ${kind} under a name`, report);
    return entriesOf(named).flatMap(([name, values]): Found[] => {
      if (isMap(values)) return [{ kind, name, values }];
      noMap(values, ['parts', kind, name], `the keys of a ${kind} with their values`, report);
      return [];
    });
  });
}

/** The name of a part, its note, and keys that no part has. */
function checkPart(kind: PartKind, name: string, values: Keys, note: unknown, report: Report): void {
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
