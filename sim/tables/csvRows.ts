import type { ProblemList } from '../common/problemList.ts';
import { refuseManyColumns } from './inputLimits.ts';
import { OpenQuote, rowSplitter } from './rowSplitter.ts';

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
  let widthBefore = 0;
  let lastWidth = 0;
  let lastCell = '';
  // Fewest decimals of the last cell of every row but the last: a row cut inside a number shows here.
  let fewest = Number.POSITIVE_INFINITY;
  let isLast = false;
  const splitter = rowSplitter(heading.delimiter, 'all', 1, (record, _, lineBelow, last) => {
    if (rows.line.length > 0) {
      widthBefore = lastWidth;
      fewest = Math.min(fewest, decimals(lastCell));
    }
    lastWidth = record.length;
    lastCell = record[record.length - 1]!;
    isLast = last;
    const line = heading.line + lineBelow;
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
  try {
    splitter.push(text.slice(heading.end));
    splitter.end();
  } catch (error) {
    if (!(error instanceof OpenQuote)) throw error;
    problems.add('quote', () => ({
      code: 'FILE_TRUNCATED',
      file,
      line: heading.line + error.line,
      got: error.message,
      expected: 'rows whose quotes are closed',
      fix: 'export or download the file again; it breaks off, or a quote is too many.',
    }));
    return rows;
  }
  const broken = brokenOff(lastWidth, lastCell, widthBefore, fewest, !isLast);
  if (rows.line.length > 1 && broken !== undefined) {
    problems.add('broken off', () => ({
      code: 'FILE_TRUNCATED',
      file,
      line: rows.line[rows.line.length - 1]!,
      got: broken,
      expected: 'a last row like the ones before it',
      fix: 'export or download the file again; it ends in the middle of a row.',
    }));
  }
  return rows;
}

/** What shows that the last row breaks off, in words; undefined when it looks whole. */
function brokenOff(
  width: number,
  lastCell: string,
  widthBefore: number,
  fewest: number,
  closed: boolean,
): string | undefined {
  if (width < widthBefore) return `a last row of ${width} cells after rows of ${widthBefore}`;
  if (!closed && decimals(lastCell) < fewest) {
    return `a last row that ends in "${lastCell}", shorter than all before it, with no line break`;
  }
  return undefined;
}

/** Digits after the point; 0 without a point, -1 for an empty cell, so that a cut cell is less than a whole one. */
function decimals(text: string): number {
  if (text === '') return -1;
  const point = text.lastIndexOf('.');
  return point === -1 ? 0 : text.length - point - 1;
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
      const cells = splitRow(row, delimiter);
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

function splitRow(row: string, delimiter: string): string[] {
  const cells: string[] = [];
  let cell = '';
  let quoted = false;
  for (const char of row) {
    if (char === '"') quoted = !quoted;
    else if (char === delimiter && !quoted) {
      cells.push(cell.trim());
      cell = '';
    } else cell += char;
  }
  cells.push(cell.trim());
  return cells;
}
