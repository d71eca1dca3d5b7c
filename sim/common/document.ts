import {
  isAlias,
  isMap,
  isScalar,
  isSeq,
  LineCounter,
  type Node,
  type Pair,
  parseDocument,
  visit,
} from 'yaml';
import { InputProblem, type Problem } from './InputProblem.ts';
import { MOST_OF_A_CODE, problemList } from './problemList.ts';

/** A place in a text, both counted from 1. */
interface Place {
  line: number;
  column: number;
}

/** Path of keys and list positions from the root of a document. */
export type KeyPath = readonly (string | number)[];

/** What a YAML file says, and where; values that are of no file stand nowhere. Knows no field. */
export interface TextDocument {
  /** Plain maps, lists and scalars; the root is a map. */
  value: Record<string, unknown>;
  /** Where a scalar stands; of a map, a list or nothing, its key. Of a path that is not there, the nearest that is above it. */
  placeOf(path: KeyPath): Partial<Place>;
  /** Where the key itself stands. */
  placeOfKey(path: KeyPath): Partial<Place>;
}

type YamlDocument = ReturnType<typeof parseDocument>;

/** What each alias stands for: the last anchor of its name above it. */
type Targets = ReadonlyMap<Node, Node | undefined>;

/** Values of a document with those that its aliases repeat; more than any garden has. */
const MOST_VALUES = 100_000;

/**
 * A YAML file as plain values with the line and column of each.
 *
 * in: file, name for messages and bytes
 * out: the document; its root is a map
 * throws: FILE_EMPTY, FILE_NOT_TEXT, YAML_SYNTAX, YAML_DUPLICATE_KEY; all problems of the file together
 */
export function readDocument(file: { name: string; bytes: Uint8Array }): TextDocument {
  const text = textOf(file);
  const lines = new LineCounter();
  const document = parseDocument(text, {
    lineCounter: lines,
    prettyErrors: false,
    uniqueKeys: false,
    logLevel: 'error',
  });
  const placeAt = (offset: number): Place => {
    const { line, col } = lines.linePos(offset);
    return { line, column: col };
  };
  const targets = targetsOf(document);
  const problems = problemList(MOST_OF_A_CODE);
  const report = (problem: Omit<Problem, 'file'>) =>
    problems.add(problem.code, () => ({ ...problem, file: file.name }));
  syntaxProblems(document, text, placeAt).forEach(report);
  duplicateProblems(document, placeAt).forEach(report);
  aliasProblems(document, targets, placeAt).forEach(report);
  problems.throwIfAny();
  if (!isMap(document.contents)) {
    const empty =
      document.contents === null || (isScalar(document.contents) && document.contents.value === null);
    throw new InputProblem({
      code: empty ? 'FILE_EMPTY' : 'YAML_SYNTAX',
      file: file.name,
      line: 1,
      got: empty ? 'nothing but comments' : isSeq(document.contents) ? 'a list' : 'text without any key',
      expected: 'YAML with a key and its value on each line, as in "key: value"',
      ...(empty ? {} : { fix: 'is this the right file?' }),
    });
  }
  return {
    value: plain(document.contents, targets) as Record<string, unknown>,
    placeOf: (path) => placeAt(find(document, targets, path).value),
    placeOfKey: (path) => placeAt(find(document, targets, path).key),
  };
}

/** Values that are of no file. */
export function plainDocument(value: TextDocument['value']): TextDocument {
  return { value, placeOf: () => ({}), placeOfKey: () => ({}) };
}

function textOf(file: { name: string; bytes: Uint8Array }): string {
  const notText = (got: string) =>
    new InputProblem({
      code: 'FILE_NOT_TEXT',
      file: file.name,
      got,
      expected: 'a text file in UTF-8',
      fix: 'save it as plain text (UTF-8), or name another file.',
    });
  const zero = file.bytes.indexOf(0);
  if (zero >= 0) throw notText(`a zero byte at position ${zero + 1}`);
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(file.bytes);
  } catch {
    throw notText('bytes that are not UTF-8');
  }
  if (text.trim() !== '') return text;
  throw new InputProblem({
    code: 'FILE_EMPTY',
    file: file.name,
    got: file.bytes.length === 0 ? 'a file of 0 bytes' : 'nothing but blanks',
    expected: 'YAML with a key and its value on each line, as in "key: value"',
  });
}

function syntaxProblems(
  document: YamlDocument,
  text: string,
  placeAt: (offset: number) => Place,
): Omit<Problem, 'file'>[] {
  return [...document.errors, ...document.warnings].map((error) => {
    const place = placeAt(error.pos[0]);
    return {
      code: 'YAML_SYNTAX',
      ...place,
      got: excerpt(text, place.line),
      expected: `YAML (${lowerFirst(error.message)})`,
      fix: 'correct the line, or the one before it: blanks (no tabs) to indent, quotes and brackets closed.',
    };
  });
}

/** Keys that stand twice in one map. The package's own check compares each with each. */
function duplicateProblems(
  document: YamlDocument,
  placeAt: (offset: number) => Place,
): Omit<Problem, 'file'>[] {
  const problems: Omit<Problem, 'file'>[] = [];
  visit(document, {
    Map(_, map) {
      const places = new Map<string, Place>();
      for (const pair of map.items) {
        const key = keyText(pair);
        const place = placeAt(startOf(pair.key) ?? 0);
        const first = places.get(key);
        if (first === undefined) places.set(key, place);
        else {
          problems.push({
            code: 'YAML_DUPLICATE_KEY',
            ...place,
            field: key,
            got: `"${key}" a second time; it stands on line ${first.line} already`,
            expected: 'each key once in its map',
            fix: 'remove one of the two.',
          });
        }
      }
    },
  });
  return problems;
}

function targetsOf(document: YamlDocument): Targets {
  const anchors = new Map<string, Node>();
  const targets = new Map<Node, Node | undefined>();
  visit(document, {
    Node(_, node) {
      if (isAlias(node)) targets.set(node, anchors.get(node.source));
      else if (node.anchor !== undefined) anchors.set(node.anchor, node);
    },
  });
  return targets;
}

function aliasProblems(
  document: YamlDocument,
  targets: Targets,
  placeAt: (offset: number) => Place,
): Omit<Problem, 'file'>[] {
  const problems: Omit<Problem, 'file'>[] = [];
  const sizes = new Map<unknown, number>();
  let values = 0;
  visit(document, {
    Scalar() {
      values++;
    },
    Alias(_, alias, ancestors) {
      const target = targets.get(alias);
      const place = { code: 'YAML_SYNTAX', ...placeAt(startOf(alias) ?? 0) } as const;
      if (target === undefined || ancestors.includes(target)) {
        problems.push({
          ...place,
          got: `*${alias.source}`,
          expected:
            target === undefined
              ? 'an anchor of that name above it'
              : 'an anchor that does not hold its own copy',
          fix: `add &${alias.source} where the value stands first, or write the value out.`,
        });
        return undefined;
      }
      // What holds its own copy has no size.
      if (problems.length > 0) return undefined;
      const size = sizeOf(target, targets, sizes);
      values += size;
      if (values <= MOST_VALUES) return undefined;
      problems.push({
        ...place,
        got: `*${alias.source}, which repeats ${size} values`,
        expected: `at most ${MOST_VALUES} values in a file, those counted that an alias repeats`,
        fix: 'take copies away; a name beside a library part is shorter than a copy of the part.',
      });
      return visit.BREAK;
    },
  });
  return problems;
}

/** Values of a node with all that its aliases repeat. */
function sizeOf(node: unknown, targets: Targets, sizes: Map<unknown, number>): number {
  const known = sizes.get(node);
  if (known !== undefined) return known;
  let size = 1;
  if (isAlias(node)) size = sizeOf(targets.get(node), targets, sizes);
  else if (isMap(node) || isSeq(node)) {
    const children = isMap(node) ? node.items.map((pair) => pair.value) : node.items;
    size = children.reduce((sum: number, child) => sum + sizeOf(child, targets, sizes), 1);
  }
  sizes.set(node, size);
  return size;
}

/** A node as plain values. The package's own way looks through all aliases for each. */
function plain(node: unknown, targets: Targets): unknown {
  if (isAlias(node)) return plain(targets.get(node), targets);
  if (isSeq(node)) return node.items.map((item) => plain(item, targets));
  if (isMap(node))
    return Object.fromEntries(node.items.map((pair) => [keyText(pair), plain(pair.value, targets)]));
  return isScalar(node) ? node.value : null;
}

/** Offsets of the value and of the key at a path, or of the nearest that is above it. */
function find(document: YamlDocument, targets: Targets, path: KeyPath): { value: number; key: number } {
  let node: unknown = document.contents;
  let place = { value: 0, key: 0 };
  for (const step of path) {
    if (isAlias(node)) node = targets.get(node);
    if (isMap(node)) {
      const pair = node.items.find((item) => keyText(item) === String(step));
      if (pair === undefined) return place;
      const key = startOf(pair.key) ?? place.key;
      node = pair.value;
      const plain = (isScalar(node) && node.source !== '') || isAlias(node);
      place = { key, value: (plain ? startOf(node) : undefined) ?? key };
    } else if (isSeq(node)) {
      const item: unknown = node.items[Number(step)];
      const start = startOf(item);
      if (start === undefined) return place;
      node = item;
      place = { key: start, value: start };
    } else return place;
  }
  return place;
}

function keyText(pair: Pair): string {
  return isScalar(pair.key) ? String(pair.key.value) : String(pair.key);
}

function startOf(node: unknown): number | undefined {
  return (node as Node | null | undefined)?.range?.[0];
}

function excerpt(text: string, line: number): string {
  const found = (text.split(/\r?\n/)[line - 1] ?? '').trim();
  if (found === '') return 'the end of the file';
  return `"${found.length > 60 ? `${found.slice(0, 57)}...` : found}"`;
}

function lowerFirst(message: string): string {
  return message.charAt(0).toLowerCase() + message.slice(1);
}
