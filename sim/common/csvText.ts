/** One column of a CSV output: heading and the text of a row's cell ('' means 'does not apply'). */
export interface CsvColumn<Row> {
  heading: string;
  cell: (row: Row) => string;
}

/**
 * CSV text: UTF-8, LF, comma, one heading row. Cells holding a comma, quote or line break are quoted.
 *
 * in: columns, in order; rows, any iterable
 * out: the whole text, ending in LF
 */
export function csvText<Row>(columns: readonly CsvColumn<Row>[], rows: Iterable<Row>): string {
  const lines = [columns.map((column) => quoted(column.heading)).join(',')];
  for (const row of rows) lines.push(columns.map((column) => quoted(column.cell(row))).join(','));
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

function quoted(text: string): string {
  return /[",\n\r]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
