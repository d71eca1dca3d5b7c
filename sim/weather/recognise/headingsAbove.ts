import { greatest } from 'd3-array';
import type { Delimiter } from '../../tables/rowSplitter.ts';
import { splitLine } from '../../tables/rowSplitter.ts';
import { stampRange } from '../../tables/stampRanges.ts';
import { type CellKind, classifyCell } from './classifyCell.ts';
import type { Layout } from './DetectedFormat.ts';
import { QUANTITIES, QUANTITY_WORDS, STAMP_WORDS } from './quantityWords.ts';
import { unitFromWords } from './unitFromWords.ts';
import { normaliseHeading } from './words.ts';

const COMMENT = /^\s*(#+|%+|!+|\/\/|\*+|--)\s*/;
/** Rows that may stand between the names and the data: units, kinds of mean, column numbers. */
const MOST_ROWS = 4;

/**
 * The names of the columns, their units and what the preamble says about them.
 *
 * in: preamble, all lines above the rows; delimiter; width and kinds of usual rows
 * out: headings (empty where there is no heading row), units, legends, their lines (1-based), the comment mark
 */
export function headingsAbove(
  preamble: readonly string[],
  delimiter: Delimiter,
  width: number,
  kinds: readonly CellKind[],
): Pick<Layout, 'headingLine' | 'headings' | 'units' | 'legends' | 'comment'> {
  const rows = rowsAbove(preamble, delimiter, width, kinds);
  const names = greatest(
    rows.filter(({ names, cells }) => names > 0 || cells.length === width),
    (row) => row.names - 3 * row.units,
  );
  const mark = preamble.map((line) => COMMENT.exec(line)?.[1]).find((found) => found !== undefined);
  const comment = mark === undefined ? {} : { comment: mark };
  if (names === undefined) {
    const blank = Array.from({ length: width }, () => '');
    return { headings: [], units: blank, legends: legendsOf(preamble, [], delimiter, width), ...comment };
  }
  const below = rows.filter(({ line }) => line > names.line);
  const units = below.find((row) => row.units > 0.25);
  const legends = legendsOf(preamble.slice(0, names.line), names.cells, delimiter, names.cells.length);
  for (const row of below) {
    if (row === units) continue;
    for (const [c, cell] of row.cells.entries()) legends[c] = `${legends[c] ?? ''} ${cell}`.trim();
  }
  return {
    headingLine: names.line + 1,
    headings: wholeNames(names, rows),
    units: names.cells.map((_, c) => units?.cells[c] ?? ''),
    legends,
    ...comment,
  };
}

interface HeadingRow {
  /** 0-based. */
  line: number;
  cells: string[];
  /** How many cells are names of columns, and which share are units. */
  names: number;
  units: number;
}

/** Rows of words above the data, the nearest first: names, units, kinds of mean. */
function rowsAbove(
  preamble: readonly string[],
  delimiter: Delimiter,
  width: number,
  kinds: readonly CellKind[],
): HeadingRow[] {
  const rows: HeadingRow[] = [];
  let others = 0;
  for (let line = preamble.length - 1; line >= 0 && rows.length < MOST_ROWS; line--) {
    const text = preamble[line]!.replace(COMMENT, '');
    const cells = text.trim() === '' ? [] : cellsOf(text, delimiter, width, kinds);
    const filled = cells.filter((cell) => cell !== '');
    const figures = filled.filter((cell) => isFigure(cell)).length;
    if (cells.length < 0.6 * width || filled.length < 2 || figures > 0.3 * filled.length) {
      // A line or two of another kind may part the heading from the rows.
      if (++others > 2 || rows.length > 0) break;
      continue;
    }
    rows.push({
      line,
      cells,
      names: filled.filter(isName).length,
      units: filled.filter((cell) => cell.length < 16 && isUnit(cell)).length / filled.length,
    });
  }
  return rows;
}

/** A number or a time; '06:00 - 07:00' is the name of a column. */
function isFigure(cell: string): boolean {
  const kind = classifyCell(cell);
  return /number|stamp|date|clock/.test(kind) && !(kind === 'clock' && stampRange(cell)?.told);
}

/** A name may be written over two rows ('global' over 'light'). */
function wholeNames({ line, cells }: HeadingRow, rows: readonly HeadingRow[]): string[] {
  const above = rows.find((row) => row.line === line - 1 && row.cells.length === cells.length);
  const parted = above !== undefined && above.units === 0 && above.cells.every((cell) => cell.length < 16);
  return parted ? cells.map((cell, c) => `${above.cells[c]} ${cell}`.trim()) : cells;
}

/** Cells of a heading; where blanks part the cells, blanks inside a name may be meant. */
function cellsOf(text: string, delimiter: Delimiter, width: number, kinds: readonly CellKind[]): string[] {
  const cells = splitLine(text, delimiter);
  if (delimiter !== ' ' || cells.length === width) return cells;
  const wide = text.trim().split(/\s{2,}|\t/);
  // Units in brackets set off by a blank
  const joined = text
    .trim()
    .replace(/\s+([[(][^\])]*[\])])/g, '_$1')
    .split(/\s+/);
  const ofLength = (length: number) => [wide, cells, joined].find((list) => list.length === length);
  const whole = ofLength(width);
  if (whole !== undefined) return whole;
  // 'stamp' over a date and a clock, or over a date, a clock and the letters of a zone
  const parts = kinds[0] !== 'date' || kinds[1] !== 'clock' ? [] : kinds[2] === 'word' ? [1, 2] : [1];
  for (const missing of parts) {
    const shorter = ofLength(width - missing);
    if (shorter !== undefined) return [shorter[0]!, ...Array(missing).fill(''), ...shorter.slice(1)];
  }
  return cells;
}

function isName(cell: string): boolean {
  const words = normaliseHeading(cell);
  if (words === '') return false;
  if (STAMP_WORDS.some(([pattern]) => pattern.test(words))) return true;
  return QUANTITIES.some((quantity) => QUANTITY_WORDS[quantity].yes.some(([pattern]) => pattern.test(words)));
}

function isUnit(cell: string): boolean {
  if (/^[-–]$|^(%|hpa|pa|mbar|deg|°|utc|gmt|nan|n\/a|unit\w*|yyyy\S*|hh\S*)$/i.test(cell)) return true;
  return QUANTITIES.some((quantity) => unitFromWords(cell, quantity) !== undefined);
}

const NUMBERED =
  /^\W*(?:column|col\.?|spalte|kolumn|kolonne|kolom|colonne|columna|colonna|coluna|kolumna|sloupec|sarake)\s*(\d+)\s*[:=.)-]+\s*(.+)$/i;
const NAMED = /^\s*([^\s=:]{1,24})(?:\s*[=:]|\s+-\s|\s{2,})\s*(.+)$/;

/** What the preamble says about each column: 'name = words', 'column 3: words', or a table row that holds the name. */
function legendsOf(
  preamble: readonly string[],
  headings: readonly string[],
  delimiter: Delimiter,
  width: number,
): string[] {
  const legends = Array.from({ length: width }, () => '');
  const place = new Map(headings.map((heading, c) => [heading.toLowerCase(), c] as const));
  const legendIn = (line: string): readonly [column: number, words: string] | undefined => {
    const [, number, ofNumber] = NUMBERED.exec(line) ?? [];
    if (number !== undefined) return [Number(number) - 1, ofNumber!];
    const [, name, ofName] = NAMED.exec(line) ?? [];
    const named = name === undefined ? undefined : place.get(name.toLowerCase());
    if (named !== undefined) return [named, ofName!];
    const cells = splitLine(line, delimiter);
    const holds = cells.find((cell) => cell.length > 3 && place.has(cell.toLowerCase()));
    if (holds === undefined || cells.length < 2) return undefined;
    return [place.get(holds.toLowerCase())!, cells.filter((cell) => cell !== holds).join('; ')];
  };
  for (const line of preamble) {
    const [column = -1, words = ''] = legendIn(line.replace(COMMENT, '')) ?? [];
    if (column >= 0 && column < width) legends[column] = `${legends[column]} ${words}`.trim();
  }
  return legends;
}
