import { CsvError } from 'csv-parse';
import { parse } from 'csv-parse/sync';
import { distance } from 'fastest-levenshtein';
import { InputProblem, type Problem } from '../common/InputProblem.ts';
import type { ProblemList } from '../common/problemList.ts';
import { quotedCell } from './parseNumber.ts';
import { OpenQuote, rowSplitter, splitLine } from './rowSplitter.ts';
import { refuseManyColumns } from './TableSource.ts';

/** The wanted cells of every row below the heading. */
export interface CsvRows {
  /** cells[c][r]: trimmed text of wanted column c in row r; '' where the row is too short. */
  cells: string[][];
  /** 1-based line each row ends on. */
  line: number[];
}

/**
 * The wanted cells of a CSV text, row by row. Rows with more cells than the heading, a quote that is never closed
 * and a last row that breaks off are put on the list of problems.
 *
 * in: file, name for messages; text; heading, where rows begin and how they are split; wanted, 0-based columns
 * out: cells and lines
 * throws: FILE_TOO_LARGE (columns)
 */
export function csvRows(
  file: string,
  text: string,
  heading: Heading,
  wanted: readonly number[],
  problems: ProblemList,
): CsvRows {
  const rows: CsvRows = { cells: wanted.map(() => []), line: [] };
  const width = heading.cells.length;
  refuseManyColumns(file, width);
  const end = new LastRow();
  const open = eachRow(text, heading, (record, line, last) => {
    end.see(record.length, record[record.length - 1]!, line, !last);
    for (let c = 0; c < wanted.length; c++) rows.cells[c]!.push(record[wanted[c]!] ?? '');
    rows.line.push(line);
    if (record.length > width && record.slice(width).some((cell) => cell !== '')) {
      const cellCount = record.length;
      problems.add('wide row', () => ({
        code: 'WEATHER_VALUE_NOT_NUMBER',
        file,
        line,
        got: `a row of ${cellCount} cells`,
        expected: `${width} cells as in the heading row (line ${heading.line})`,
        fix:
          heading.delimiter === ','
            ? 'are there decimal commas? Write decimals with a point.'
            : 'correct the row.',
      }));
    }
  });
  if (open !== undefined) {
    problems.add('quote', () => openQuote(file, open));
    return rows;
  }
  const shows = end.breaksOff();
  if (shows !== undefined) problems.add('broken off', () => brokenOff(file, end.line, shows));
  return rows;
}

/**
 * All cells of every row below the heading, for small files written by hand.
 *
 * in: file, name for messages; text; heading
 * out: trimmed cells, and the 1-based line each row ends on
 * throws: FILE_TRUNCATED where a quote is never closed
 */
export function cellRows(file: string, text: string, heading: Heading): { cells: string[]; line: number }[] {
  const below = text.slice(heading.end).replaceAll('\r\n', '\n').replaceAll('\r', '\n');
  try {
    const rows = parse(below, {
      delimiter: heading.delimiter,
      record_delimiter: '\n',
      relax_column_count: true,
      relax_quotes: true,
      trim: true,
      info: true,
    }) as unknown as { record: string[]; info: { lines: number } }[];
    return rows
      .filter(({ record }) => record.some((cell) => cell !== ''))
      .map(({ record, info }) => ({ cells: record, line: heading.line + info.lines }));
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const line = 'lines' in error && typeof error.lines === 'number' ? error.lines : 1;
    throw new InputProblem(openQuote(file, heading.line + line));
  }
}

/** Hands over the rows below the heading; out: the line of a quote that is never closed, undefined where all are. */
function eachRow(
  text: string,
  heading: Heading,
  take: (cells: string[], line: number, last: boolean) => void,
): number | undefined {
  const { delimiter, end, line } = heading;
  const splitter = rowSplitter(delimiter, 'all', 1, (cells, _, below, last) =>
    take(cells, line + below, last),
  );
  try {
    splitter.push(text.slice(end));
    splitter.end();
    return undefined;
  } catch (error) {
    if (!(error instanceof OpenQuote)) throw error;
    return line + error.line;
  }
}

function openQuote(file: string, line: number): Problem {
  return {
    code: 'FILE_TRUNCATED',
    file,
    line,
    got: 'a quote that is never closed',
    expected: 'rows whose quotes are closed',
    fix: 'close it; or export or download the file again, if it breaks off there.',
  };
}

/** Watches the rows of a table, to tell whether its last one breaks off. */
export class LastRow {
  rows = 0;
  /** Of the last row: its line and its cells. */
  line = 0;
  width = 0;
  #widthBefore = 0;
  #decimals = 0;
  /** Fewest decimals of the last cell of every row but the last: a row cut inside a number shows here. */
  #fewest = Number.POSITIVE_INFINITY;
  #cell = '';
  #isClosed = true;

  /** A row: how many cells it has, its last one, the line it is on, whether a line break closes it. */
  see(width: number, cell: string, line: number, isClosed: boolean): void {
    if (this.rows > 0) {
      this.#widthBefore = this.width;
      if (this.#decimals < this.#fewest) this.#fewest = this.#decimals;
    }
    this.rows++;
    this.line = line;
    this.width = width;
    this.#cell = cell;
    this.#decimals = decimals(cell);
    this.#isClosed = isClosed;
  }

  /** What shows that the last row breaks off, in words; undefined where it looks whole, as one of `whole` cells does. */
  breaksOff(whole = Number.POSITIVE_INFINITY): string | undefined {
    if (this.width < this.#widthBefore && this.width < whole)
      return `a last row of ${this.width} cells after rows of ${this.#widthBefore}`;
    const isCut = !this.#isClosed && this.#decimals < this.#fewest && this.rows > 2;
    return isCut
      ? `a last row that ends in "${this.#cell}", shorter than all before it, with no line break`
      : undefined;
  }
}

/** The problem of a last row that breaks off; got, what shows it. */
export function brokenOff(file: string, line: number, got: string): Problem {
  return {
    code: 'FILE_TRUNCATED',
    file,
    line,
    got,
    expected: 'a last row like the ones before it',
    fix: 'export or download the file again; it ends in the middle of a row.',
  };
}

/** Digits after the mark; 0 without one, -1 for an empty cell, so that a cut cell is less than a whole one. */
function decimals(text: string): number {
  if (text === '') return -1;
  const mark = Math.max(text.lastIndexOf('.'), text.lastIndexOf(','));
  return mark === -1 ? 0 : text.length - mark - 1;
}

/** The heading row of a CSV text. */
export interface Heading {
  delimiter: ',' | ';' | '\t';
  /** Headings, trimmed, without quotes. */
  cells: string[];
  /** 1-based line it stands on. */
  line: number;
  /** Where the rows below it begin in the text. */
  end: number;
}

const DELIMITERS = [',', ';', '\t'] as const;
const MOST_PREAMBLE_LINES = 200;

/**
 * The heading row of a CSV text: the first line that holds most of the wanted headings, so that a preamble above
 * it does no harm; where none holds any, the first line that is not blank.
 *
 * in: text, not blank; wanted, headings that are looked for
 * out: the heading row, its delimiter and its place
 */
export function findHeading(text: string, wanted: readonly string[]): Heading {
  let best: { heading: Heading; score: number } | undefined;
  let start = 0;
  for (let line = 1; line <= MOST_PREAMBLE_LINES && start < text.length; line++) {
    const stop = lineEnd(text, start);
    const end = text.startsWith('\r\n', stop) ? stop + 2 : Math.min(stop + 1, text.length);
    const row = text.slice(start, stop);
    start = end;
    if (row.trim() === '') continue;
    for (const delimiter of DELIMITERS) {
      const cells = splitLine(row, delimiter);
      const score = wanted.filter((heading) => cells.includes(heading.trim())).length;
      const better =
        best === undefined ||
        score > best.score ||
        (score === best.score && line === best.heading.line && cells.length > best.heading.cells.length);
      if (better) best = { heading: { delimiter, cells, line, end }, score };
    }
    if (best?.score === wanted.length) break;
  }
  return best?.heading ?? { delimiter: ',', cells: [], line: 1, end: text.length };
}

function lineEnd(text: string, start: number): number {
  for (let i = start; i < text.length; i++) {
    const code = text.charCodeAt(i);
    if (code === 10 || code === 13) return i;
  }
  return text.length;
}

/**
 * Where the wanted columns stand.
 *
 * in: file, name for messages; wanted, headings; heading, the row they are looked for in
 * out: 0-based places; one that is missing (-1) or stands twice is put on the list of problems
 */
export function columnPlaces(
  file: string,
  wanted: readonly string[],
  heading: Heading,
  problems: ProblemList,
): number[] {
  return wanted.map((name) => placeOf(file, name, heading, problems));
}

function placeOf(file: string, wanted: string, heading: Heading, problems: ProblemList): number {
  const place = heading.cells.indexOf(wanted.trim());
  const where = { file, line: heading.line, field: wanted };
  if (place === -1) {
    const named = heading.cells.filter((cell) => cell !== '');
    const nearestFirst = named.toSorted(
      (a, b) =>
        distance(wanted.toLowerCase(), a.toLowerCase()) - distance(wanted.toLowerCase(), b.toLowerCase()),
    );
    problems.add(`column ${wanted}`, () => ({
      ...where,
      code: 'WEATHER_COLUMN_MISSING',
      got: `the columns ${nearestFirst.slice(0, 20).map(quotedCell).join(', ')}${named.length > 20 ? ', ...' : ''}`,
      expected: `a column "${wanted}"`,
      fix: `did you mean "${nearestFirst[0] ?? ''}"?`,
    }));
  } else if (heading.cells.indexOf(wanted.trim(), place + 1) !== -1) {
    const second = heading.cells.indexOf(wanted.trim(), place + 1);
    problems.add(`twice ${wanted}`, () => ({
      ...where,
      code: 'WEATHER_AMBIGUOUS',
      got: `the heading twice, in columns ${place + 1} and ${second + 1}`,
      expected: 'one column of that name',
      fix: 'rename one of them.',
    }));
  }
  return place;
}
