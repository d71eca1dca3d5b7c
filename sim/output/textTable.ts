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
  const widths = columns.map((_, k) => Math.max(...cells.map((line) => line[k]!.length)));
  return cells.map((line) =>
    `  ${line.map((cell, k) => (k === 0 ? cell.padEnd(widths[k]!) : cell.padStart(widths[k]!))).join('  ')}`.trimEnd(),
  );
}
