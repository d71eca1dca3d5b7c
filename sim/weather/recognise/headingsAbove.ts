import type { Delimiter } from '../../tables/rowSplitter.ts';
import { splitLine } from '../../tables/rowSplitter.ts';
import type { Layout, QuantityName } from './DetectedFormat.ts';
import { QUANTITY_WORDS, STAMP_WORDS } from './quantityWords.ts';
import { type CellKind, classifyCell, normaliseHeading, unitFromWords } from './words.ts';

const COMMENT = /^\s*(#+|%+|!+|\/\/|\*+|--)\s*/;
const QUANTITIES = Object.keys(QUANTITY_WORDS) as QuantityName[];
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
): Pick<Layout, 'headingLine' | 'unitLine' | 'headings' | 'units' | 'legends' | 'comment'> {
  const candidates: { line: number; cells: string[]; names: number; units: number }[] = [];
  let blanks = 0;
  for (let i = preamble.length - 1; i >= 0 && candidates.length < MOST_ROWS; i--) {
    const text = preamble[i]!;
    if (text.replace(COMMENT, '').trim() === '') {
      if (++blanks > 2 || candidates.length > 0) break;
      continue;
    }
    const cells = cellsOf(text.replace(COMMENT, ''), delimiter, width, kinds);
    const filled = cells.filter((cell) => cell !== '');
    const figures = filled.filter((cell) => /number|stamp|date|clock/.test(classifyCell(cell))).length;
    if (
      cells.length < 2 ||
      cells.length < 0.6 * width ||
      filled.length < 2 ||
      figures > 0.3 * filled.length
    ) {
      if (candidates.length > 0) break;
      // A single line of another kind may part the heading from the rows.
      if (++blanks > 2) break;
      continue;
    }
    candidates.push({
      line: i,
      cells,
      names: filled.filter(isName).length,
      units: filled.filter((cell) => cell.length < 16 && isUnit(cell)).length / filled.length,
    });
  }
  const names = candidates
    .filter(({ names, cells }) => names > 0 || cells.length === width)
    .reduce<(typeof candidates)[0] | undefined>(
      (best, row) =>
        best === undefined || row.names - 3 * row.units > best.names - 3 * best.units ? row : best,
      undefined,
    );
  const mark = preamble.map((line) => COMMENT.exec(line)?.[1]).find((found) => found !== undefined);
  const comment = mark === undefined ? {} : { comment: mark };
  if (names === undefined) {
    const blank = Array.from({ length: width }, () => '');
    return { headings: [], units: blank, legends: legendsOf(preamble, [], delimiter, width), ...comment };
  }
  // A name may be written over two rows ('global' over 'light').
  const above = candidates.find(
    ({ line, cells }) => line === names.line - 1 && cells.length === names.cells.length,
  );
  const parted = above !== undefined && above.units === 0 && above.cells.every((cell) => cell.length < 16);
  const headings = parted ? names.cells.map((cell, c) => `${above.cells[c]} ${cell}`.trim()) : names.cells;
  const below = candidates.filter(({ line }) => line > names.line);
  const units = below.find((row) => row.units > 0.25);
  const others = below.filter((row) => row !== units);
  const legends = legendsOf(preamble.slice(0, names.line), names.cells, delimiter, names.cells.length);
  for (const row of others) {
    for (const [c, cell] of row.cells.entries()) {
      if (cell !== '') legends[c] = `${legends[c] ?? ''} ${cell}`.trim();
    }
  }
  return {
    headingLine: names.line + 1,
    ...(units === undefined ? {} : { unitLine: units.line + 1 }),
    headings,
    units: names.cells.map((_, c) => units?.cells[c] ?? ''),
    legends,
    ...comment,
  };
}

/** Cells of a heading; where blanks part the cells, blanks inside a name may be meant. */
function cellsOf(text: string, delimiter: Delimiter, width: number, kinds: readonly CellKind[]): string[] {
  const cells = splitLine(text, delimiter);
  if (delimiter !== ' ' || cells.length === width) return cells;
  const wide = text.trim().split(/\s{2,}|\t/);
  // 'stamp' over a date and a clock
  // Units in brackets set off by a blank
  const joined = text
    .trim()
    .replace(/\s+([[(][^\])]*[\])])/g, '_$1')
    .split(/\s+/);
  const lists = [wide, cells, joined];
  const whole = lists.find((list) => list.length === width);
  if (whole !== undefined) return whole;
  const nearest = lists.find((list) => list.length === width - 1);
  if (nearest !== undefined && kinds[0] === 'date' && kinds[1] === 'clock') {
    return [nearest[0]!, '', ...nearest.slice(1)];
  }
  const shorter = lists.find((list) => list.length === width - 2);
  if (shorter !== undefined && kinds[0] === 'date' && kinds[1] === 'clock' && kinds[2] === 'word') {
    return [shorter[0]!, '', '', ...shorter.slice(1)];
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

/** What the preamble says about each column: 'name = words', 'column 3: words', or a table row that holds the name. */
function legendsOf(
  preamble: readonly string[],
  headings: readonly string[],
  delimiter: Delimiter,
  width: number,
): string[] {
  const legends = Array.from({ length: width }, () => '');
  const place = new Map(headings.map((heading, c) => [heading.toLowerCase(), c] as const));
  for (const line of preamble) {
    const bare = line.replace(COMMENT, '');
    const numbered =
      /^\W*(?:column|col\.?|spalte|kolumn|kolonne|kolom|colonne|columna|colonna|coluna|kolumna|sloupec|sarake)\s*(\d+)\s*[:=.)-]+\s*(.+)$/i.exec(
        bare,
      );
    const named = /^\s*([^\s=:]{1,24})(?:\s*[=:]|\s+-\s|\s{2,})\s*(.+)$/.exec(bare);
    let column = numbered === null ? undefined : Number(numbered[1]) - 1;
    let words = numbered?.[2];
    if (column === undefined && named !== null) {
      column = place.get(named[1]!.toLowerCase());
      words = named[2];
    }
    if (column === undefined && headings.length > 0) {
      const cells = splitLine(bare, delimiter);
      const holds = cells.find((cell) => cell.length > 3 && place.has(cell.toLowerCase()));
      if (holds !== undefined && cells.length > 1) {
        column = place.get(holds.toLowerCase());
        words = cells.filter((cell) => cell !== holds).join('; ');
      }
    }
    if (column !== undefined && column >= 0 && column < width && words !== undefined) {
      legends[column] = `${legends[column]} ${words}`.trim();
    }
  }
  return legends;
}
