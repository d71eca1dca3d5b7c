/** One column of a CSV output: heading and the text of a row's cell ('' means 'does not apply'). */
export interface CsvColumn<Row> {
  heading: string;
  cell: (row: Row) => string;
}

/**
 * CSV text: UTF-8, LF, comma, one heading row. Cells holding a comma, quote or line break are quoted; text that a
 * spreadsheet would take for a formula has an apostrophe before it, which `textOfCell` takes away again.
 *
 * in: columns, in order; rows, any iterable
 * out: the whole text, ending in LF
 * source: OWASPFormula
 */
export function csvText<Row>(columns: readonly CsvColumn<Row>[], rows: Iterable<Row>): string {
  const lines = [columns.map((column) => csvCell(column.heading)).join(',')];
  for (const row of rows) lines.push(columns.map((column) => csvCell(column.cell(row))).join(','));
  return `${lines.join('\n')}\n`;
}

/**
 * A number with fixed decimals; '' for NaN ('does not apply'); never '-0.00'.
 * @example fixed(-0.001, 2); // => '0.00'
 */
export function fixed(value: number, decimals: number): string {
  if (Number.isNaN(value)) return '';
  const text = value.toFixed(decimals);
  return text.startsWith('-') && Number(text) === 0 ? text.slice(1) : text;
}

/**
 * A text or number as one cell of a CSV file.
 * @example csvCell('=1+1'); // => "'=1+1"
 * @example csvCell('-1.5'); // => '-1.5'
 */
export function csvCell(text: string): string {
  const cell = FORMULA.test(text) ? `'${text}` : text;
  return /[",\n\r]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}

/**
 * The text, such as a name, that a cell of a CSV file of ours stands for.
 *
 * in: cell, without the quotes that CSV itself may need
 * out: the text
 * @example textOfCell("'=1+1"); // => '=1+1'
 */
export function textOfCell(cell: string): string {
  return cell.startsWith("'") && FORMULA.test(cell) ? cell.slice(1) : cell;
}

/** What a spreadsheet calculates, but for negative numbers; and what already has apostrophes before it. */
const FORMULA = /^'*(?:[=+@\t\r]|-(?!\d+(?:\.\d+)?(?:e[+-]?\d+)?$))/;
