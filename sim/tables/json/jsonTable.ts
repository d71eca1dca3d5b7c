import { groups, max, sum } from 'd3-array';
import { InputProblem } from '../../common/InputProblem.ts';
import { notesBeside } from './notesBeside.ts';
import { isName, type Json, type JsonRows, rowsInJson, type Scalar } from './rowsInJson.ts';

/** Whether a text, by how it begins, is JSON; a record a line too. */
export function isJson(text: string): boolean {
  return /^\s*[{[]\s*["{[\]}]/.test(text);
}

/**
 * What a JSON text holds, as the text of a table: what is said beside the rows first, a line each, then the headings,
 * their units where any is said, and the rows, cut at semicolons. Of several lists the longest are taken: lists with the
 * same times become columns of one table, lists with the same headings follow each other.
 *
 * in: file, name for messages; text, JSON or a JSON record a line (NaN, which JSON lacks, is read as nothing)
 * out: the table
 * throws: FILE_NOT_TEXT where it is no JSON, FILE_TRUNCATED where it breaks off, WEATHER_COLUMN_MISSING where it holds no rows
 * source: RFC8259
 */
export function jsonTable(file: string, text: string): string {
  const value = parsed(file, text);
  const lists = longest(rowsInJson(value));
  if (lists.length === 0)
    throw new InputProblem({
      code: 'WEATHER_COLUMN_MISSING',
      file,
      got: 'JSON without rows',
      expected: 'a list of records, each with a time and a value, or lists of one length beside each other',
      fix: 'export it as CSV.',
    });
  const table = oneTable(lists);
  const { headings, columns } = table;
  const { lines, units } = notesBeside(value, table, new Set(lists.map(({ node }) => node)));
  lines.push(headings.map(cellOf).join(';'));
  if (units.some(Boolean)) lines.push(units.map((unit) => cellOf(unit || '-')).join(';'));
  for (let row = 0; row < columns[0]!.length; row++)
    lines.push(columns.map((column) => cellOf(column[row]!)).join(';'));
  return `${lines.join('\n')}\n`;
}

function parsed(file: string, text: string): Json {
  try {
    return JSON.parse(text);
  } catch (error) {
    const rest = recordsByLine(text) ?? withoutNaN(text);
    if (rest !== undefined) return rest;
    const { message } = error as SyntaxError;
    const cut = /end of JSON|Unterminated string/.test(message);
    const at = Number(/position (\d+)/.exec(message)?.[1] ?? text.length);
    throw new InputProblem({
      code: cut ? 'FILE_TRUNCATED' : 'FILE_NOT_TEXT',
      file,
      line: text.slice(0, at).split('\n').length,
      got: cut ? 'JSON that breaks off' : 'JSON with a mistake in it',
      expected: 'whole JSON, or a JSON record a line',
      fix: 'export or download the file again.',
    });
  }
}

/** A record a line; undefined where a line is none. */
function recordsByLine(text: string): Json | undefined {
  const lines = text.split(/\r?\n/).filter((line) => line.trim() !== '');
  try {
    return lines.length < 2 ? undefined : lines.map((line) => JSON.parse(line));
  } catch {
    return undefined;
  }
}

/** Some programs write the NaN that JSON lacks. */
function withoutNaN(text: string): Json | undefined {
  const quoted = /("(?:[^"\\]|\\.)*")|-?\b(?:NaN|Infinity)\b/g;
  try {
    return JSON.parse(text.replace(quoted, (_, string?: string) => string ?? 'null'));
  } catch {
    return undefined;
  }
}

/** The lists with most rows, those with the same headings taken together. */
function longest(found: readonly JsonRows[]): JsonRows[] {
  const alike = groups(found, ({ headings }) => headings.join('\n')).map(([, lists]) => lists);
  const rowsOf = (lists: readonly JsonRows[]): number => sum(lists, ({ columns }) => columns[0]!.length);
  const most = max(alike, rowsOf);
  return alike.filter((lists) => rowsOf(lists) === most).flat();
}

/** Lists as one table: side by side where they have the same times, else one after the other, with their names. */
function oneTable(lists: readonly JsonRows[]): Pick<JsonRows, 'headings' | 'columns'> {
  const first = lists[0]!;
  if (lists.length === 1) return { ...first, headings: namedIn(first) };
  const time = first.columns.findIndex((column, c) => isShared(column, c, lists));
  if (time < 0) {
    const alike = lists.filter(({ headings }) => headings.join('\n') === first.headings.join('\n'));
    const columns = first.columns.map((_, c) => alike.flatMap((list) => list.columns[c]!));
    const names = alike.flatMap(({ label, columns: [cells] }) => cells!.map(() => label));
    if (names.every((name) => !isName(name))) return { headings: namedIn(first), columns };
    return { headings: [...namedIn(first), 'list'], columns: [...columns, names] };
  }
  return {
    headings: [
      first.headings[time]!,
      ...lists.flatMap(({ label, headings }) =>
        headings.toSpliced(time, 1).map((heading) => [label, heading].filter(Boolean).join('.')),
      ),
    ],
    columns: [first.columns[time]!, ...lists.flatMap(({ columns }) => columns.toSpliced(time, 1))],
  };
}

/** Whether a column of the first list stands in all of them, as times do. */
function isShared(column: readonly Scalar[], c: number, lists: readonly JsonRows[]): boolean {
  const changes = column.some((value) => value !== column[0]);
  return changes && lists.every(({ columns }) => column.every((value, row) => value === columns[c]?.[row]));
}

/** Headings of a list alone: a single column without a name is what the list is called. */
function namedIn({ label, headings }: JsonRows): string[] {
  const nameless = headings.filter((heading) => heading === '').length;
  return headings.map((heading) => (heading === '' && nameless === 1 && isName(label) ? label : heading));
}

function cellOf(value: Scalar): string {
  const text = value === null ? '' : String(value);
  return /[";\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
