import { filledEnd, filledStart, shortened, shownWidth } from './shownWidth.ts';

/** Emphasis for a terminal; each gives its text back unchanged where colour is off. */
export interface Paint {
  strong: (text: string) => string;
  good: (text: string) => string;
  middling: (text: string) => string;
  bad: (text: string) => string;
  faint: (text: string) => string;
}

/**
 * Emphasis by ANSI control sequences, or none. Nothing may rest on it alone: every text reads without it.
 *
 * in: colour, whether the terminal takes it
 * out: the five kinds of emphasis
 */
export function paint(colour: boolean): Paint {
  const kind = (on: number, off: number) => (text: string) =>
    colour ? `\u001b[${on}m${text}\u001b[${off}m` : text;
  return {
    strong: kind(1, 22),
    good: kind(32, 39),
    middling: kind(33, 39),
    bad: kind(31, 39),
    faint: kind(2, 22),
  };
}

/** Lines of the terminal are at most so long. */
export const TERMINAL_COLUMNS = 100;

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

/** A column of a table of plain text: up to two lines of heading, and the text of a row's cell. */
export interface TextColumn<Row> {
  heading: readonly [string, string];
  cell: (row: Row) => string;
}

/**
 * A table of plain text: first column to the left, the others to the right, two spaces between, two before.
 *
 * in: columns; rows
 * out: lines: two of heading, one a row; none ends in a space
 */
export function textTable<Row>(columns: readonly TextColumn<Row>[], rows: readonly Row[]): string[] {
  const cells = [
    columns.map((column) => column.heading[0]),
    columns.map((column) => column.heading[1]),
    ...rows.map((row) => columns.map((column) => column.cell(row))),
  ];
  const widths = columns.map((_, k) => Math.max(...cells.map((line) => shownWidth(line[k]!))));
  return cells.map((line) =>
    `  ${line.map((cell, k) => (k === 0 ? filledEnd(cell, widths[k]!) : filledStart(cell, widths[k]!))).join('  ')}`.trimEnd(),
  );
}

/** A row of a table whose columns are things of one kind. */
export interface SideRow {
  label: string;
  cells: readonly string[];
  /** Emphasis of single cells, put on after they are aligned. */
  paint?: (text: string, column: number) => string;
}

const GAP = 2;
const WIDEST_NAME = 13;

/**
 * Things side by side as plain text: a column each, its name broken over several lines, labels to the left; columns for
 * which a line has no room follow below under the same labels.
 *
 * in: names of the columns; rows
 * out: lines of at most 100 columns where no cell is wider than that
 */
export function sideBySide(names: readonly string[], rows: readonly SideRow[]): string[] {
  const headings = names.map((name) => brokenName(name));
  const labelWidth = Math.max(...rows.map((row) => shownWidth(row.label)), 0);
  const widths = headings.map((lines, k) =>
    Math.max(...[...lines, ...rows.map((row) => row.cells[k]!)].map(shownWidth)),
  );
  const lines: string[] = [];
  for (let from = 0; from < names.length; ) {
    let width = GAP + labelWidth;
    let stop = from;
    while (stop < names.length && (stop === from || width + GAP + widths[stop]! <= TERMINAL_COLUMNS)) {
      width += GAP + widths[stop]!;
      stop++;
    }
    if (from > 0) lines.push('');
    const columns = Array.from({ length: stop - from }, (_, k) => from + k);
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
    from = stop;
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
