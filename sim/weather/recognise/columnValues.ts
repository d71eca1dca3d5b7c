import { parseDecimal } from '../../tables/parseNumber.ts';

/**
 * The numbers of one column of a sample, as they stand in the file.
 *
 * in: rows; column, 0-based; decimal mark
 * out: one value a row, NaN where there is no number
 */
export function columnValues(rows: readonly string[][], column: number, decimal: '.' | ','): Float64Array {
  const comma = decimal === ',';
  return Float64Array.from(rows, (cells) => parseDecimal(cells[column] ?? '', comma));
}
