import { greatest, mode, range } from 'd3-array';
import { InputProblem } from '../../common/InputProblem.ts';
import { emptyFile } from '../../tables/decodeText.ts';
import type { Delimiter } from '../../tables/rowSplitter.ts';
import { splitLine } from '../../tables/rowSplitter.ts';
import { type CellKind, classifyCell } from './classifyCell.ts';
import type { Layout } from './DetectedFormat.ts';
import { headingsAbove } from './headingsAbove.ts';
import type { FileSample } from './takeSample.ts';
import { bearsUnit, withoutUnits } from './unitsInCells.ts';

const DELIMITERS: readonly Delimiter[] = [';', '\t', ',', '|', ' '];
/** What a column may hold, the likeliest first. */
const KINDS: readonly CellKind[] = ['number', 'stamp', 'date', 'clock', 'word'];
const MOST_LINES = 6000;
/** Rows in a row that show where the data begin. */
const RUN = 12;

/** A layout, and the sample's rows split by it. */
export interface SplitSample {
  layout: Layout;
  /** Cells of each row of the sample, and its line where it stands in the head (0 further on). */
  rows: string[][];
  lines: number[];
}

/**
 * How the rows of a file are laid out, judged by which way of splitting makes most cells clean figures and times.
 *
 * in: sample
 * out: the layout, and the rows of the sample
 * throws: FILE_EMPTY (a heading without rows), WEATHER_COLUMN_MISSING (one column), WEATHER_VALUE_NOT_NUMBER (mixed decimal marks)
 */
export function detectDialect(sample: FileSample): SplitSample {
  const head = sample.head.split(/\r\n|\n|\r/);
  const further = sample.pieces.flatMap((piece) => piece.split(/\r\n|\n|\r/));
  const filled = head.slice(0, MOST_LINES).filter((line) => line.trim() !== '');
  // Rows stand at the end of what was read; headings and preamble do not.
  const body = everyFew(
    [...filled.slice(Math.floor(filled.length * 0.3)), ...further.slice(0, MOST_LINES)],
    400,
  );
  const tries = DELIMITERS.map((delimiter) => judge(body, delimiter));
  // Blanks stand inside stamps and names too: they must do clearly better than a mark that parts every line.
  const better = ({ delimiter }: Trial): number => (delimiter === ' ' ? 0.1 : 0.02);
  const best = tries.reduce((a, b) => (b.score > a.score + better(b) ? b : a));
  if (best.width < 2 || best.score === 0) throw noRows(sample.name, filled);
  const { delimiter, width, kinds } = best;
  const isRow = (cells: readonly string[]): boolean => looksLikeRow(cells, kinds);
  const firstData = firstRow(head, (line) => isRow(splitLine(line, delimiter)));
  if (firstData === undefined) throw noRows(sample.name, filled);

  const preamble = head.slice(0, firstData);
  const headings = headingsAbove(preamble, delimiter, width, kinds);
  const rows: string[][] = [];
  const lines: number[] = [];
  for (const [i, line] of [...head.slice(firstData), ...further].entries()) {
    if (line.trim() === '') continue;
    const cells = splitLine(line, delimiter);
    if (!isRow(cells)) continue;
    rows.push(cells);
    lines.push(i < head.length - firstData ? firstData + i + 1 : 0);
  }
  refuseCommaColumns(sample.name, rows, headings.headings, delimiter, firstData + 1);
  const { rows: bare, ...units } = withoutUnits(rows, width);
  return {
    layout: {
      delimiter,
      ...decimalMark(sample.name, bare, width, headings.headings),
      firstDataLine: firstData + 1,
      width,
      preamble,
      ...headings,
      ...units,
    },
    rows: bare,
    lines,
  };
}

interface Trial {
  delimiter: Delimiter;
  width: number;
  kinds: CellKind[];
  score: number;
}

/** Commonest width and kinds of cells under a delimiter, and how clean they are. */
function judge(body: readonly string[], delimiter: Delimiter): Trial {
  const split = body.map((line) => splitLine(line, delimiter));
  const telling = split.filter(
    (cells) => cells.length > 1 && cells.some((cell) => /number|date|stamp/.test(classifyCell(cell))),
  );
  const width = mode(telling.map((cells) => cells.length));
  const usual = telling.filter((cells) => cells.length === width);
  if (width === undefined) return { delimiter, width: 0, kinds: [], score: 0 };
  const kinds = range(width).map((c): CellKind => {
    const filled = usual.map((cells) => classifyCell(cells[c]!)).filter((kind) => kind !== 'empty');
    const count = (kind: CellKind): number => filled.filter((other) => other === kind).length;
    return filled.length === 0 ? 'empty' : greatest(KINDS, count)!;
  });
  const clean = usual.flat().filter((cell) => classifyCell(cell) !== 'word' || bearsUnit(cell)).length;
  const share = clean / (usual.length * width);
  // Long words stand in columns of their own; a wrong delimiter leaves half of a cell in many.
  return { delimiter, width, kinds, score: share * Math.min(1, (usual.length + 2) / body.length) };
}

/** Most filled cells are of the kind their column usually holds. */
function looksLikeRow(cells: readonly string[], kinds: readonly CellKind[]): boolean {
  if (cells.length < Math.max(2, kinds.length * 0.6)) return false;
  let fits = 0;
  let filled = 0;
  for (let c = 0; c < Math.min(cells.length, kinds.length); c++) {
    const kind = classifyCell(cells[c]!);
    if (kind === 'empty') continue;
    filled++;
    const usual = kinds[c]!;
    const alike =
      kind === usual || usual === 'empty' || (isDay(kind) && isDay(usual)) || (usual === 'word' && c > 0);
    if (alike) fits++;
    else if (usual !== 'number' && usual !== 'word') return false; // the time itself
  }
  return filled > 0 && fits >= 0.85 * filled && fits > 0;
}

function isDay(kind: CellKind): boolean {
  return kind === 'date' || kind === 'stamp';
}

/** 0-based line from which rows follow each other, or of the only one; undefined where there are none. */
function firstRow(head: readonly string[], isRow: (line: string) => boolean): number | undefined {
  const filled = head.flatMap((line, i) => (line.trim() === '' ? [] : [i]));
  return filled.find((i, k) => {
    if (!isRow(head[i]!)) return false;
    const run = filled.slice(k, k + RUN).map((line) => isRow(head[line]!));
    return run[1] !== false && run.filter(Boolean).length >= 0.8 * run.length;
  });
}

function decimalMark(
  file: string,
  rows: readonly string[][],
  width: number,
  headings: readonly string[],
): Pick<Layout, 'decimal' | 'thousands'> {
  let points = 0;
  let commas = 0;
  let thousands = false;
  for (let c = 0; c < width; c++) {
    const cells = rows.map((row) => row[c] ?? '');
    const parted = partsThousands(cells);
    thousands ||= parted !== undefined;
    const written = (pattern: RegExp) =>
      parted === undefined ? cells.filter((cell) => pattern.test(cell)) : [];
    const [withPoint, withComma] = [written(/^[+-]?\d*\.\d+$/), written(/^[+-]?\d*,\d+$/)];
    points += parted === ',' ? 1 : withPoint.length;
    commas += parted === '.' ? 1 : withComma.length;
    if (withPoint.length > 0 && withComma.length > 0) {
      throw new InputProblem({
        code: 'WEATHER_VALUE_NOT_NUMBER',
        file,
        ...(headings[c] ? { field: headings[c] } : {}),
        got: `decimal points and decimal commas in column ${c + 1} ("${withPoint[0]}", "${withComma[0]}")`,
        expected: 'one decimal mark throughout',
        fix: 'write all decimals with a point.',
      });
    }
  }
  return { decimal: commas > points ? ',' : '.', ...(thousands ? { thousands } : {}) };
}

/**
 * The mark that parts the thousands of a column of whole numbers: every cell that has it has groups of three, the
 * others are below a thousand and reach into the hundreds.
 */
function partsThousands(cells: readonly string[]): '.' | ',' | undefined {
  const marks = new Set<string>();
  let most = 0;
  for (const cell of cells) {
    if (/^[+-]?\d+$/.test(cell)) most = Math.max(most, Math.abs(Number(cell)));
    else if (/^[+-]?[1-9]\d{0,2}([.,])\d{3}(?:\1\d{3})*$/.test(cell))
      marks.add(cell.includes(',') ? ',' : '.');
    else if (/[.,]\d/.test(cell)) return undefined;
  }
  const [mark] = marks;
  return marks.size === 1 && most >= 100 && most < 1000 ? (mark as '.' | ',') : undefined;
}

/** Decimal commas in a file that is split at commas leave more cells than headings. */
function refuseCommaColumns(
  file: string,
  rows: readonly string[][],
  headings: readonly string[],
  delimiter: Delimiter,
  line: number,
): void {
  if (delimiter !== ',' || headings.length === 0) return;
  const wide = rows.filter(
    (cells) =>
      cells.length > headings.length && cells.slice(headings.length).every((cell) => /^\d+$/.test(cell)),
  ).length;
  if (wide < rows.length / 2) return;
  throw new InputProblem({
    code: 'WEATHER_VALUE_NOT_NUMBER',
    file,
    line,
    got: `rows of ${rows[0]!.length} cells under ${headings.length} headings`,
    expected: 'as many cells as headings',
    fix: 'are there decimal commas? Write decimals with a point, or part the cells by semicolons.',
  });
}

function noRows(file: string, filled: readonly string[]): InputProblem {
  const figures = filled.filter((line) => classifyCell(line.trim()) === 'number').length;
  const words = filled.some((line) =>
    DELIMITERS.slice(0, 4).some((delimiter) => line.split(delimiter).length > 1),
  );
  if (words && figures <= filled.length / 2) {
    const got =
      filled.length === 1
        ? 'a heading row and nothing below it'
        : 'lines of words and no row of figures below them';
    return emptyFile(file, got, 'rows of weather', filled.length);
  }
  const isFigures = figures > filled.length / 2;
  return new InputProblem({
    code: 'WEATHER_COLUMN_MISSING',
    file,
    got: isFigures ? 'one column of figures' : 'text that does not part into columns',
    expected: 'rows with a time and at least one value',
    fix: isFigures ? 'export it with the times.' : 'export it as CSV.',
  });
}

function everyFew<T>(list: readonly T[], most: number): T[] {
  const stride = Math.max(1, Math.ceil(list.length / most));
  return list.filter((_, i) => i % stride === 0);
}
