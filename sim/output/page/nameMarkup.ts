import { escapeText } from '../figures/element.ts';

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
