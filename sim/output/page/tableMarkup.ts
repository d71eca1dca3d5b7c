import { escapeText } from '../figures/element.ts';

/** A column of a table on the page. */
export interface MarkupColumn<Row> {
  heading: string;
  cell: (row: Row) => string;
  /** Right-aligned. */
  number?: boolean;
}

/**
 * A table of the page, in a box that scrolls where it is wider than the page.
 *
 * in: caption; columns; rows
 * out: markup, all texts escaped
 */
export function tableMarkup<Row>(
  caption: string,
  columns: readonly MarkupColumn<Row>[],
  rows: readonly Row[],
): string {
  const kind = (column: MarkupColumn<Row>) => (column.number ? ' class="number"' : '');
  const head = columns
    .map((column) => `<th scope="col"${kind(column)}>${escapeText(column.heading)}</th>`)
    .join('');
  const body = rows
    .map(
      (row) =>
        `<tr>${columns.map((column) => `<td${kind(column)}><bdi>${escapeText(column.cell(row))}</bdi></td>`).join('')}</tr>`,
    )
    .join('\n');
  const name = escapeText(caption);
  return `<div class="scroll wide" role="region" aria-label="${name}" tabindex="0"><table><caption>${name}</caption><thead><tr>${head}</tr></thead><tbody>\n${body}\n</tbody></table></div>`;
}
