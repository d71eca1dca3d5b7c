import { CsvError } from 'csv-parse';
import { parse } from 'csv-parse/sync';
import { least, sort } from 'd3-array';
import { distance } from 'fastest-levenshtein';
import { InputProblem, type Problem } from '../common/InputProblem.ts';
import type { ProblemList } from '../common/problemList.ts';
import { quotedCell } from './parseNumber.ts';
import { type Delimiter, OpenQuote, rowSplitter, splitLine } from './rowSplitter.ts';
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
  { delimiter, cells: { length: width }, line: headingLine }: Heading,
  wanted: readonly number[],
  problems: ProblemList,
): CsvRows {
  const rows: CsvRows = { cells: wanted.map(() => []), line: [] };
  refuseManyColumns(file, width);
  const shape = { file, delimiter, headingLine, firstLine: headingLine + 1, width, widest: width };
  const walk = new TableRows(shape, wanted, problems, (cells, _, line) => {
    for (let c = 0; c < wanted.length; c++) rows.cells[c]!.push(cells[c]!);
    rows.line.push(line);
    return true;
  });
  walk.push(text);
  walk.end();
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
  const below = text
    .split(/\r\n|\r|\n/)
    .slice(heading.line)
    .join('\n');
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
    throw new InputProblem(openQuote(file, new OpenQuote(heading.line + line)));
  }
}

/** The problem of a quote that is never closed; throws what is another error. */
function openQuote(file: string, error: unknown): Problem {
  if (!(error instanceof OpenQuote)) throw error;
  return {
    code: 'FILE_TRUNCATED',
    file,
    line: error.line,
    got: error.message,
    expected: 'rows whose quotes are closed',
    fix: 'close it; or export or download the file again, if it breaks off there.',
  };
}

/** What is known of a table before its rows are read. Lines are 1-based. */
interface TableShape {
  /** Name for messages. */
  file: string;
  delimiter: Delimiter;
  headingLine?: number;
  firstLine: number;
  /** Cells of a whole row, and the most it may have: what stands behind them is a problem. */
  width: number;
  widest: number;
}

/** Takes the wanted cells of a line that is not blank; out: whether it is a row of the table, not a note or a footer. */
type TakeLine = (cells: readonly string[], width: number, line: number, last: boolean) => boolean;

/**
 * The rows of a table, walked once, its text in pieces; what shows that it is damaged is put on the list of problems:
 * rows that are too wide, a quote that is never closed, a last row that breaks off.
 */
export class TableRows {
  /** Rows so far. */
  rows = 0;
  readonly push: (text: string) => void;
  readonly #end: () => void;
  readonly #shape: TableShape;
  readonly #problems: ProblemList;
  /** The last row, and how many cells the one before had. */
  #last = { line: 0, width: 0, cell: '', isClosed: true };
  #widthBefore = 0;
  /** Fewest decimals of the last wanted cell of all rows but the last: one cut inside a number shows here. */
  #fewest = Number.POSITIVE_INFINITY;

  /** in: shape; wanted, 0-based columns; problems, grows; take, gets the wanted cells in that order, the array is used again */
  constructor(shape: TableShape, wanted: readonly number[], problems: ProblemList, take: TakeLine) {
    this.#shape = shape;
    this.#problems = problems;
    const places = [...wanted, shape.widest];
    const splitter = rowSplitter(shape.delimiter, places, shape.firstLine, (cells, width, line, last) => {
      const before = this.#last.width;
      const isCut = last && width < before && width < shape.width && /^(\d|$)/.test(cells[0]!);
      if (isCut) this.#brokenOff(line, `of ${width} cells after rows of ${before}`);
      else if (take(cells, width, line, last)) this.#see(cells, width, line, !last);
    });
    this.push = splitter.push;
    this.#end = splitter.end;
  }

  end(): void {
    const { file, width } = this.#shape;
    try {
      this.#end();
    } catch (error) {
      const problem = openQuote(file, error);
      this.#problems.add('quote', () => problem);
      return;
    }
    const { line, width: last, cell, isClosed } = this.#last;
    if (last < this.#widthBefore && last < width)
      this.#brokenOff(line, `of ${last} cells after rows of ${this.#widthBefore}`);
    else if (!isClosed && decimals(cell) < this.#fewest && this.rows > 2)
      this.#brokenOff(line, `that ends in "${cell}", shorter than all before it, with no line break`);
  }

  #see(cells: readonly string[], width: number, line: number, isClosed: boolean): void {
    if (this.rows++ > 0) {
      this.#widthBefore = this.#last.width;
      this.#fewest = Math.min(this.#fewest, decimals(this.#last.cell));
    }
    this.#last = { line, width, cell: cells[cells.length - 2]!, isClosed };
    if (cells[cells.length - 1] !== '') this.#tooWide(width, line);
  }

  #brokenOff(line: number, shows: string): void {
    this.#problems.add('broken off', () => brokenOff(this.#shape.file, line, `a last row ${shows}`));
  }

  #tooWide(width: number, line: number): void {
    const { file, widest, headingLine, delimiter } = this.#shape;
    this.#problems.add('wide row', () => ({
      code: 'WEATHER_VALUE_NOT_NUMBER',
      file,
      line,
      got: `a row of ${width} cells`,
      expected: `${widest} cells as in ${headingLine === undefined ? 'the other rows' : `the heading row (line ${headingLine})`}`,
      fix: delimiter === ',' ? 'are there decimal commas? Write decimals with a point.' : 'correct the row.',
    }));
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
  const rows = text.split(/\r\n|\n|\r/, MOST_PREAMBLE_LINES).flatMap((row, i) => {
    if (row.trim() === '') return [];
    return DELIMITERS.map((delimiter) => {
      const cells = splitLine(row, delimiter);
      const score = wanted.filter((heading) => cells.includes(heading.trim())).length;
      return { heading: { delimiter, cells, line: i + 1 }, score };
    });
  });
  const best = least(
    rows,
    (a, b) =>
      b.score - a.score || a.heading.line - b.heading.line || b.heading.cells.length - a.heading.cells.length,
  );
  return best?.heading ?? { delimiter: ',', cells: [], line: 1 };
}

/**
 * Where a wanted column stands.
 *
 * in: file, name for messages; wanted, its heading; heading, the row it is looked for in
 * out: 0-based place; one that is missing (-1) or stands twice is put on the list of problems
 */
export function columnPlace(file: string, wanted: string, heading: Heading, problems: ProblemList): number {
  const { cells, line } = heading;
  const [place = -1, second] = cells.flatMap((cell, c) => (cell === wanted.trim() ? [c] : []));
  const where = { file, line, field: wanted };
  if (place === -1) {
    const away = (name: string): number => distance(wanted.toLowerCase(), name.toLowerCase());
    const nearest = sort(
      cells.filter((cell) => cell !== ''),
      away,
    );
    problems.add(`column ${wanted}`, () => ({
      ...where,
      code: 'WEATHER_COLUMN_MISSING',
      got: `the columns ${nearest.slice(0, 20).map(quotedCell).join(', ')}${nearest.length > 20 ? ', ...' : ''}`,
      expected: `a column "${wanted}"`,
      fix: `did you mean "${nearest[0] ?? ''}"?`,
    }));
  } else if (second !== undefined) {
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
