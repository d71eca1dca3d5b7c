import { wrapText } from '../textTable.ts';

/**
 * Words broken into lines; a name that is fenced off (`isolated`) and broken stays so in each of its lines.
 *
 * in: words; letters, of a line at most
 * @example wrappedWords('a longer \u2068garden lamp\u2069', 16); // => ['a longer \u2068garden\u2069', '\u2068lamp\u2069']
 */
export function wrappedWords(words: string, letters: number): string[] {
  let open = '';
  return wrapText(words, 0, 0, letters).map((text) => {
    const line = open + text;
    open = line.lastIndexOf('\u2068') > line.lastIndexOf('\u2069') ? '\u2068' : '';
    return open === '' ? line : `${line}\u2069`;
  });
}
