import type { ProblemList } from '../common/problemList.ts';
import type { Heading } from './findHeading.ts';
import { refuseManyColumns } from './inputLimits.ts';
import { OpenQuote, rowSplitter } from './read/rowSplitter.ts';

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
