import { TERMINAL_COLUMNS } from './wrapText.ts';

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
 * out: lines of at most 100 characters where no cell is wider than that
 */
export function sideBySide(names: readonly string[], rows: readonly SideRow[]): string[] {
  const headings = names.map((name) => brokenName(name));
  const labelWidth = Math.max(...rows.map((row) => row.label.length), 0);
  const widths = headings.map((lines, k) =>
    Math.max(...lines.map((line) => line.length), ...rows.map((row) => row.cells[k]!.length)),
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
        return text.padStart(widths[k]! + GAP);
      });
      lines.push(`${' '.repeat(GAP + labelWidth)}${cells.join('')}`.trimEnd());
    }
    for (const row of rows) {
      const cells = columns.map((k) => {
        const text = row.cells[k]!.padStart(widths[k]! + GAP);
        return row.paint === undefined ? text : row.paint(text, k);
      });
      lines.push(`${' '.repeat(GAP)}${row.label.padEnd(labelWidth)}${cells.join('')}`.trimEnd());
    }
    from = stop;
  }
  return lines;
}

/** A name over lines of at most 13 characters, broken at blanks, then after hyphens; a longer piece is cut. */
function brokenName(name: string): string[] {
  return name.length <= WIDEST_NAME ? [name] : name.split(' ').flatMap(brokenWord);
}

function brokenWord(word: string): string[] {
  const lines: string[] = [];
  for (const piece of word.split(/(?<=-)/)) {
    const joined = `${lines.at(-1) ?? ''}${piece}`;
    if (lines.length > 0 && joined.length <= WIDEST_NAME) lines[lines.length - 1] = joined;
    else lines.push(piece);
  }
  return lines.map((line) => (line.length <= WIDEST_NAME ? line : `${line.slice(0, WIDEST_NAME - 3)}...`));
}
