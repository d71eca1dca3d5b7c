import { filledEnd, filledStart, shortened, shownWidth } from './shownWidth.ts';

/** How a text is laid out: nothing said, without colours, in lines of `TERMINAL_COLUMNS`, and only what is acted on. */
export interface Look {
  /** Whether it takes colours. */
  colour?: boolean;
  /** Columns of a line. */
  columns?: number;
  /** Whether all there is is told. */
  details?: boolean;
  /** Whether files stand beside the text, to be named in it; so unless stated. */
  filed?: boolean;
}

/** The ways in which a word is made to stand out. */
export type Emphasis = Exclude<keyof Paint, 'columns' | 'details' | 'filed' | 'wrap'>;

/** How a text is set for a terminal: emphasis, each kind of which gives its text back unchanged where colour is off, and lines. */
export interface Paint {
  /** Columns of a line. */
  columns: number;
  /** Whether all there is is told. */
  details: boolean;
  /** Whether files stand beside the text. */
  filed: boolean;
  /** As `wrapText`, into lines of so many columns. */
  wrap: (text: string, indent?: number, hanging?: number) => string[];
  strong: (text: string) => string;
  good: (text: string) => string;
  middling: (text: string) => string;
  bad: (text: string) => string;
  faint: (text: string) => string;
}

/** Lines of a terminal of which nothing is known, and of a file, are at most so long. */
export const TERMINAL_COLUMNS = 100;

/**
 * Emphasis by ANSI control sequences, or none, and lines as long as the terminal's. Nothing may rest on emphasis alone:
 * every text reads without it.
 *
 * in: look, of the terminal
 */
export function paint({
  colour = false,
  columns = TERMINAL_COLUMNS,
  details = false,
  filed = true,
}: Look = {}): Paint {
  const kind = (on: number, off: number) => (text: string) =>
    colour ? `\u001b[${on}m${text}\u001b[${off}m` : text;
  return {
    columns,
    details,
    filed,
    wrap: (text, indent, hanging) => wrapText(text, indent, hanging, columns),
    strong: kind(1, 22),
    good: kind(32, 39),
    middling: kind(33, 39),
    bad: kind(31, 39),
    faint: kind(2, 22),
  };
}

/**
 * A paragraph broken into lines between words, of at most as many columns as the terminal's lines; a longer word stands alone.
 *
 * in: text, without line breaks; indent, spaces before the first line; hanging, spaces before the others;
 *   longest, columns of a line
 * out: the lines
 * @example wrapText('a lamp', 2); // => ['  a lamp']
 */
export function wrapText(text: string, indent = 0, hanging = indent, longest = TERMINAL_COLUMNS): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ').filter((some) => some !== '')) {
    const margin = lines.length === 0 ? indent : hanging;
    if (line !== '' && margin + shownWidth(line) + 1 + shownWidth(word) > longest) {
      lines.push(' '.repeat(margin) + line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  if (line !== '') lines.push(' '.repeat(lines.length === 0 ? indent : hanging) + line);
  return lines;
}

/**
 * A picture of signs, or where the terminal's lines are too short for it a sentence in its place.
 *
 * in: lines, of the picture; what it is; style
 */
export function fitting(lines: readonly string[], what: string, style: Paint): readonly string[] {
  const widest = Math.max(...lines.map(shownWidth));
  return widest <= style.columns ? lines : style.wrap(`${what} takes ${widest} columns: widen the terminal.`);
}

/** A column of a table of plain text: up to two lines of heading, and the text of a row's cell. */
export interface TextColumn<Row> {
  heading: readonly [string, string];
  cell: (row: Row) => string;
}

/**
 * A table of plain text: first column to the left, the others to the right, two spaces between, two before; columns for
 * which a line has no room follow below beside the first one again.
 *
 * in: columns; rows; longest, columns of a line
 * out: lines: two of heading, one a row; none ends in a space
 */
export function textTable<Row>(
  columns: readonly TextColumn<Row>[],
  rows: readonly Row[],
  longest = TERMINAL_COLUMNS,
): string[] {
  const cells = [
    columns.map((column) => column.heading[0]),
    columns.map((column) => column.heading[1]),
    ...rows.map((row) => columns.map((column) => column.cell(row))),
  ];
  const widths = columns.map((_, k) => Math.max(...cells.map((line) => shownWidth(line[k]!))));
  return pieces(widths.slice(1), longest - GAP - widths[0]!).flatMap((piece, p) => [
    ...(p === 0 ? [] : ['']),
    ...cells.map((line) =>
      [filledEnd(line[0]!, widths[0]!), ...piece.map((k) => filledStart(line[k + 1]!, widths[k + 1]!))]
        .map((cell) => `${' '.repeat(GAP)}${cell}`)
        .join('')
        .trimEnd(),
    ),
  ]);
}

const GAP = 2;

/** Columns of these widths in pieces, none wider than a line has room but one of a single column. */
function pieces(widths: readonly number[], room: number): number[][] {
  const all: number[][] = [[]];
  let width = 0;
  widths.forEach((each, k) => {
    const piece = all.at(-1)!;
    width += GAP + each;
    if (piece.length === 0 || width <= room) piece.push(k);
    else {
      all.push([k]);
      width = GAP + each;
    }
  });
  return all;
}

/** A row of a table whose columns are things of one kind. */
export interface SideRow {
  label: string;
  cells: readonly string[];
  /** Emphasis of single cells, put on after they are aligned. */
  paint?: (text: string, column: number) => string;
}

const WIDEST_NAME = 13;

/**
 * Things side by side as plain text: a column each, its name broken over several lines, labels to the left; columns for
 * which a line has no room follow below under the same labels.
 *
 * in: names of the columns; rows; longest, columns of a line
 * out: lines of at most so many columns where no cell is wider than that
 */
export function sideBySide(
  names: readonly string[],
  rows: readonly SideRow[],
  longest = TERMINAL_COLUMNS,
): string[] {
  const headings = names.map((name) => brokenName(name));
  const labelWidth = Math.max(...rows.map((row) => shownWidth(row.label)), 0);
  const widths = headings.map((lines, k) =>
    Math.max(...[...lines, ...rows.map((row) => row.cells[k]!)].map(shownWidth)),
  );
  const lines: string[] = [];
  for (const columns of pieces(widths, longest - GAP - labelWidth)) {
    if (lines.length > 0) lines.push('');
    const height = Math.max(...columns.map((k) => headings[k]!.length));
    for (let h = 0; h < height; h++) {
      const cells = columns.map((k) => {
        const text = headings[k]![h - height + headings[k]!.length] ?? '';
        return filledStart(text, widths[k]! + GAP);
      });
      lines.push(`${' '.repeat(GAP + labelWidth)}${cells.join('')}`.trimEnd());
    }
    for (const row of rows) {
      const cells = columns.map((k) => {
        const text = filledStart(row.cells[k]!, widths[k]! + GAP);
        return row.paint === undefined ? text : row.paint(text, k);
      });
      lines.push(`${' '.repeat(GAP)}${filledEnd(row.label, labelWidth)}${cells.join('')}`.trimEnd());
    }
  }
  return lines;
}

/** A name over lines of at most 13 columns, broken at blanks, then after hyphens; a longer piece is cut. */
function brokenName(name: string): string[] {
  return shownWidth(name) <= WIDEST_NAME ? [name] : name.split(' ').flatMap(brokenWord);
}

function brokenWord(word: string): string[] {
  const lines: string[] = [];
  for (const piece of word.split(/(?<=-)/)) {
    const joined = `${lines.at(-1) ?? ''}${piece}`;
    if (lines.length > 0 && shownWidth(joined) <= WIDEST_NAME) lines[lines.length - 1] = joined;
    else lines.push(piece);
  }
  return lines.map((line) => shortened(line, WIDEST_NAME));
}
