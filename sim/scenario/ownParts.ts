import { createHash } from 'node:crypto';
import type * as z from 'zod';
import { type KeyPath, readDocument, type TextDocument } from '../common/document.ts';
import { placeText, type Report } from '../common/InputProblem.ts';
import { lampSchema } from '../lamp/schema.ts';
import { coverSchema } from '../spot/cover/schema.ts';
import type { NamedBytes } from '../tables/TableSource.ts';
import { issueProblems } from './issueProblems.ts';
import type { MergedScenario } from './mergeParts.ts';
import { libraryIn, type PartShelf, type ShelfPart } from './PartShelf.ts';
import type { PartKind } from './parts.ts';
import { KINDS, type PartInFile, partsInFile } from './partsInFile.ts';
import { valueAt } from './paths.ts';
import { type ReadScenario, readQuantities } from './readQuantities.ts';
import { scenarioFileIfThere } from './scenarioFile.ts';
import { currencySchema } from './schema.ts';
import { bareValue } from './shownValue.ts';
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
    const { line, column } = own.document.placeOfKey(['currency']);
    report({
      code: 'SCENARIO_CONFLICT',
      path: ['currency'],
      got: `${bareValue(currency)}, and ${own.currency} in ${placeText(own.file, line, column)}`,
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
  const found = partsInFile(written, report);
  const root = rootOf(found);
  const read = readQuantities(root);
  const own = found.map(({ kind, name }) => {
    const above = sectionOf(kind, name);
    const { note, ...values } = valueAt(read.value, above) as Keys;
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

/** The parts as sections of a scenario, so that they are read and judged as those are. */
function rootOf(found: readonly PartInFile[]): Keys {
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
