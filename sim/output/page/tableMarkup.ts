import { element, escapeText, wordsMarkup } from '../figures/element.ts';

/** A column of a table on the page. */
export interface MarkupColumn<Row> {
  heading: string;
  cell: (row: Row) => string;
  /** Right-aligned. */
  number?: boolean;
  /** Keys, values or names of a file, as they are typed. */
  code?: true;
}

/** A column of numbers. */
export function numberColumn<Row>(heading: string, cell: (row: Row) => string): MarkupColumn<Row> {
  return { heading, cell, number: true };
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
    .map((column) => `<th scope="col"${kind(column)}>${wordsMarkup(column.heading)}</th>`)
    .join('');
  const body = rows
    .map(
      (row) =>
        `<tr>${columns.map((column) => `<td${kind(column)}>${cellMarkup(column, row)}</td>`).join('')}</tr>`,
    )
    .join('\n');
  const name = wordsMarkup(caption);
  return `<div class="scroll wide" role="region" aria-label="${name}" tabindex="0"><table><caption>${name}</caption><thead><tr>${head}</tr></thead><tbody>\n${body}\n</tbody></table></div>`;
}

function cellMarkup<Row>(column: MarkupColumn<Row>, row: Row): string {
  const words = column.cell(row);
  return column.code ? `<code>${escapeText(words)}</code>` : fenced(words);
}

/** A sentence that may begin with a name, fenced off like one. */
function fenced(words: string): string {
  return `<bdi>${wordsMarkup(words)}</bdi>`;
}

/**
 * A name from a scenario within a sentence of the page, fenced off so that its writing direction stays its own.
 *
 * in: name
 * out: markup
 * @example nameMarkup('a<b'); // => '<bdi>a&lt;b</bdi>'
 */
export function nameMarkup(name: string): string {
  return `<bdi>${escapeText(name)}</bdi>`;
}

/** Sentences as a list: markup, all texts escaped, '' where there are none; kind is its class, name what it is called. */
export function listMarkup(sentences: readonly string[], kind: string, name?: string): string {
  const items = sentences.map((sentence) => `<li>${fenced(sentence)}</li>`);
  return items.length === 0 ? '' : element('ul', { class: kind, 'aria-label': name }, items.join('\n'));
}

/** Facts as pairs of a term and its words: markup, all texts escaped. */
export function termsMarkup(facts: readonly (readonly [term: string, words: string])[]): string {
  const pairs = facts.map(([term, words]) => `<dt>${fenced(term)}</dt><dd>${fenced(words)}</dd>`);
  return `<dl class="terms">${pairs.join('')}</dl>`;
}

/** A paragraph: markup, its words escaped. */
export function paragraphMarkup(words: string, kind?: string): string {
  return element('p', { class: kind }, wordsMarkup(words));
}

/** A part of the page that stays folded until it is asked for; printed, whether paper shows it. */
export function foldedMarkup(summary: string, markup: string, printed = false): string {
  return `<details class="folded${printed ? ' printed' : ''}"><summary>${wordsMarkup(summary)}</summary>${markup}</details>`;
}

/** What says of a sheet beside which trials it is shown; '' where beside all. */
export function sheetOf(trials: readonly string[] | undefined): string {
  return trials === undefined ? '' : ` data-of="${escapeText(trials.join(' '))}"`;
}
