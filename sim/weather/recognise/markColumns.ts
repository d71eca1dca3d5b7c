import { greatest, range, rollup } from 'd3-array';
import { type ColumnChoice, columnName, type Layout } from './DetectedFormat.ts';
import { speaksOfAnother } from './wordClaims.ts';

/** A column of marks has a few of them; numbers of an uncertainty are many. */
const MOST_MARKS = 12;
const MOST_COLUMNS = 3;

/**
 * Columns of marks (of quality, of source) in which some rows differ from the usual one, in sentences: they are not read.
 *
 * in: layout; rows of a sample; whole, whether these are all; read, the columns that are
 */
export function marksUnread(
  layout: Layout,
  rows: readonly string[][],
  whole: boolean,
  read: readonly Pick<ColumnChoice, 'column'>[],
): string[] {
  const found = range(layout.headings.length).flatMap((column) => {
    if (read.some((choice) => choice.column === column) || !speaksOfAnother(layout, column)) return [];
    const counts = rollup(
      rows,
      (list) => list.length,
      (cells) => (cells[column] ?? '').trim(),
    );
    const [usual, count] = greatest(counts, ([, own]) => own) ?? ['', 0];
    if (counts.size < 2 || counts.size > MOST_MARKS) return [];
    const than = usual === '' ? 'bear a mark' : `have another mark than "${usual}"`;
    const of = `${rows.length - count} of ${rows.length} rows${whole ? '' : ' looked at'}`;
    return [`${columnName(layout, column)} is not read, in which ${of} ${than}`];
  });
  const more = found.length - MOST_COLUMNS;
  return more > 0 ? [...found.slice(0, MOST_COLUMNS), `and ${more} more`] : found;
}
