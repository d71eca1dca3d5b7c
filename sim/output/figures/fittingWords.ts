/** Widths of letters in parts of the height of their type, as one of the widest of the pictures' types has them. */
const NARROW = 0.42;
const USUAL = 0.64;
const CAPITAL = 0.8;
const WIDE = 1.06;
const SIGN = 1.4;

/**
 * How wide words are drawn at the most, in parts of the height of their type: a guess, since nothing measures text where
 * there is no browser.
 *
 * in: words, in any script
 * @example wordsWidth('it'); // => 0.84
 */
export function wordsWidth(words: string): number {
  let width = 0;
  for (const letter of words) width += letterWidth(letter);
  return width;
}

function letterWidth(letter: string): number {
  if (/[\p{M}\p{Cf}]/u.test(letter)) return 0;
  if (/[fijlrt .,:;'!|()-]/.test(letter)) return NARROW;
  if (/[mwMW@%]/.test(letter)) return WIDE;
  if (/[a-z0-9]/.test(letter)) return USUAL;
  if (/\p{Extended_Pictographic}/u.test(letter)) return SIGN;
  return letter >= '\u1100' ? WIDE : CAPITAL;
}

/**
 * Words in as many of their letters as fit, with an ellipsis where some do not.
 *
 * in: words; width, in parts of the height of their type
 * @example fittingWords('north of the house', 6); // => 'north of…'
 */
export function fittingWords(words: string, width: number): string {
  if (wordsWidth(words) <= width) return words;
  let kept = '';
  let left = width - WIDE;
  for (const letter of words) {
    left -= letterWidth(letter);
    if (left < 0) break;
    kept += letter;
  }
  return `${kept.trimEnd()}\u2026`;
}

/**
 * A sentence in lines about as long as each other, as few as fit into a width.
 *
 * in: words, parted by blanks; width, in parts of the height of their type
 * out: at least one line
 */
export function linesOf(words: string, width: number): string[] {
  const widest = broken(words, width);
  for (let narrower = wordsWidth(words) / widest.length; narrower < width; narrower += USUAL) {
    const lines = broken(words, narrower);
    if (lines.length <= widest.length) return lines;
  }
  return widest;
}

function broken(words: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of words.split(' ')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && wordsWidth(longer) > width) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  return [...lines, line];
}
