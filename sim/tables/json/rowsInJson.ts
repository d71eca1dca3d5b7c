import { max } from 'd3-array';
import { INPUT_LIMITS } from '../TableSource.ts';

/** A value as JSON has it. */
export type Json = string | number | boolean | null | Json[] | { [key: string]: Json };
export type Scalar = Exclude<Json, object> | null;
export type JsonObject = { [key: string]: Json };

/** Rows that stand in a JSON value, column by column. */
export interface JsonRows {
  /** The list, or the object with times for keys; undefined for lists beside each other. */
  node?: Json;
  /** What they are called, by a name beside it or by its key; '' at the top. */
  label: string;
  /** '' for a column without a name. */
  headings: string[];
  /** As many as headings, all of one length. */
  columns: Scalar[][];
}

/** Deeper than any export nests. */
const DEEPEST = 16;
/** Lists of so many figures within a record are cells of it: the hours, or the quarters of an hour, of a day. */
const MOST_IN_RECORD = 96;
/** Seconds since 1970 of the year 1980; no light is as large. */
const LEAST_UNIX_S = 315_532_800;
const STAMP_KEY = /^(?:\d{4}\D?\d\d(?:\D?\d\d)?\b.*|\d{6,14}|\d\d:\d\d(?::\d\d)?)$/;
const NAME_KEY =
  /^(?:name|label|title|id|key|code|parameter|variable|quantity|channel|field|series|metric)$/i;

/**
 * Everything in a JSON value that can be read as rows: lists of records, lists of lists, lists of equal length beside
 * each other, and objects with a time for a key.
 *
 * in: value
 * out: the rows, in the order in which they stand; none where there are none
 */
export function rowsInJson(value: Json): JsonRows[] {
  const found: JsonRows[] = [];
  look(value, 0, '', undefined, found);
  return found;
}

/** The name that an object gives to itself; undefined where it has none. */
export function nameOf(object: JsonObject): string | undefined {
  const key = Object.keys(object).find((each) => NAME_KEY.test(each) && isName(object[each]!));
  return key === undefined ? undefined : String(object[key]);
}

export function isObject(value: Json | undefined): value is JsonObject {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

export function isScalar(value: Json | undefined): value is Scalar {
  return value !== undefined && (typeof value !== 'object' || value === null);
}

/** A list that is cells of its record. */
function isShort(list: readonly Json[]): boolean {
  return list.length <= MOST_IN_RECORD && list.every(isScalar);
}

export function isName(value: Json): boolean {
  return typeof value === 'string' && value.trim() !== '' && !/^[\d.,:-]+$/.test(value);
}

function look(
  value: Json,
  depth: number,
  label: string,
  around: JsonObject | undefined,
  found: JsonRows[],
): void {
  if (isScalar(value) || depth > DEEPEST) return;
  const rows = Array.isArray(value) ? rowsOfList(value, around) : rowsOfObject(value);
  if (rows !== undefined) found.push({ label, ...(Array.isArray(value) ? { node: value } : {}), ...rows });
  const entries = Object.entries(value);
  // Within many records, and within what stands for each time, are cells only.
  if (rows !== undefined && (entries.length > MOST_IN_RECORD || rows.node === value)) return;
  if (Array.isArray(value)) {
    for (const [, each] of entries)
      look(each, depth + 1, (isObject(each) && nameOf(each)) || label, undefined, found);
  } else {
    const name = nameOf(value);
    for (const [key, each] of entries) look(each, depth + 1, name ?? key, value, found);
  }
}

type Columns = Omit<JsonRows, 'label'>;

function rowsOfList(list: readonly Json[], around: JsonObject | undefined): Columns | undefined {
  if (list.length < 2) return undefined;
  if (list.every(isObject)) return recordColumns(list);
  if (list.every((row) => Array.isArray(row) && row.length > 1 && row.every(isScalar)))
    return listColumns(list as Scalar[][], around);
  return undefined;
}

/** Columns of a list of records: a heading for every key, those within keys joined by points. */
function recordColumns(records: readonly JsonObject[]): Columns | undefined {
  const columns = new Map<string, Scalar[]>();
  const put = (row: number, heading: string, value: Json, depth = 0): void => {
    if (isScalar(value)) {
      const column = columns.get(heading) ?? Array(records.length).fill(null);
      columns.set(heading, column);
      column[row] = value;
    } else if (depth < DEEPEST && (!Array.isArray(value) || isShort(value)))
      for (const [key, each] of Object.entries(value)) put(row, `${heading}.${key}`, each, depth + 1);
  };
  for (const [row, record] of records.entries()) {
    for (const [key, value] of Object.entries(record)) put(row, key, value);
    if (columns.size > INPUT_LIMITS.columns) return undefined;
  }
  return columns.size < 2 ? undefined : { headings: [...columns.keys()], columns: [...columns.values()] };
}

/**
 * Columns of a list of lists: headings stand in the first of them, or in a list beside it; without any, a column whose
 * every cell is a date, or a number as large as one, is the time.
 */
function listColumns(rows: readonly Scalar[][], around: JsonObject | undefined): Columns | undefined {
  const width = rows[0]!.length;
  const first = rows[0]!.every((cell) => typeof cell === 'string' && !/^[\d+-]/.test(cell));
  const names = first ? (rows[0] as string[]) : namesBeside(around, width);
  const body = first ? rows.slice(1) : rows;
  const columns = rows[0]!.map((_, c) => body.map((row) => row[c] ?? null));
  const headings = names ?? columns.map((column) => (column.every(isTime) ? 'time' : ''));
  return { headings, columns };
}

function isTime(cell: Scalar): boolean {
  return typeof cell === 'number' ? cell > LEAST_UNIX_S : typeof cell === 'string' && /^\d{4}/.test(cell);
}

/** Names of as many columns, in a list of words or of objects that have one. */
function namesBeside(around: JsonObject | undefined, width: number): string[] | undefined {
  for (const list of Object.values(around ?? {})) {
    if (!Array.isArray(list) || list.length !== width) continue;
    const names = list.map((each) => (isObject(each) ? (nameOf(each) ?? '') : each));
    if (names.every((name) => typeof name === 'string' && name !== '')) return names as string[];
  }
  return undefined;
}

/** Columns of an object: its lists of one length, or what it holds for each time. */
function rowsOfObject(object: JsonObject): Columns | undefined {
  const keys = Object.keys(object);
  if (keys.length > 1 && keys.every((key) => STAMP_KEY.test(key))) {
    const values = Object.values(object);
    if (values.every(isScalar)) return { node: object, headings: ['time', ''], columns: [keys, values] };
    const records = values.every(isObject) ? recordColumns(values) : undefined;
    return (
      records && {
        node: object,
        headings: ['time', ...records.headings],
        columns: [keys, ...records.columns],
      }
    );
  }
  const lists = Object.entries(object).filter(
    (entry): entry is [string, Scalar[]] => Array.isArray(entry[1]) && entry[1].every(isScalar),
  );
  const longest = max(lists, ([, list]) => list.length) ?? 0;
  const alike = lists.filter(([, list]) => list.length === longest);
  if (alike.length < 2 || longest < 2) return undefined;
  return { headings: alike.map(([key]) => key), columns: alike.map(([, list]) => list) };
}
