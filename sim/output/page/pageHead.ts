import { wordsMarkup } from '../figures/element.ts';
import { nameMarkup, paragraphMarkup } from './tableMarkup.ts';

/**
 * The head of a page: what kind it is and of what, beside it what holds for all of it, below it what must be seen first.
 *
 * in: kind, in words; names; words, sentences, '' for none; flags, lists as markup, '' for none
 * out: markup
 */
export function pageHead(
  kind: string,
  names: readonly string[],
  words: readonly string[],
  flags: readonly string[],
): string {
  const said = words.filter((each) => each !== '').map((each) => paragraphMarkup(each, 'promise'));
  return [
    '<header class="top">',
    `<div><p class="kind">${wordsMarkup(kind)}</p><h1>${names.map(nameMarkup).join(', ')}</h1></div>`,
    `<div>${said.join('\n')}</div>`,
    ...flags,
    '</header>',
  ].join('\n');
}
