import { eastAsianWidth } from 'get-east-asian-width';

const PLAIN = /^[ -~]*$/;
/** Marks that stand on the letter before them, and isolates and their like. */
const NARROWEST = /[\p{Mn}\p{Me}\p{Cf}\p{Default_Ignorable_Code_Point}]/u;

/**
 * How many columns of a terminal a text takes: two for a wide letter of East Asia or an emoji, none for a mark on the
 * letter before it or what fences off a name.
 *
 * in: text, one line, without colours
 * source: Unicode2023 (East Asian width, categories of characters)
 * @example shownWidth('芝生'); // => 4
 */
export function shownWidth(text: string): number {
  if (PLAIN.test(text)) return text.length;
  let width = 0;
  for (const sign of text) width += NARROWEST.test(sign) ? 0 : eastAsianWidth(sign.codePointAt(0)!);
  return width;
}

/** A text and blanks behind it, so many columns wide or as it is. */
export function filledEnd(text: string, columns: number): string {
  return text + ' '.repeat(Math.max(columns - shownWidth(text), 0));
}

/** A text and blanks before it, so many columns wide or as it is. */
export function filledStart(text: string, columns: number): string {
  return ' '.repeat(Math.max(columns - shownWidth(text), 0)) + text;
}

const CUT = '...';

/**
 * A text that takes so many columns at most: a longer one is cut and ends in three dots.
 * @example shortened('north-side', 8); // => 'north...'
 */
export function shortened(text: string, columns: number): string {
  if (shownWidth(text) <= columns) return text;
  let kept = '';
  for (const sign of text) {
    if (shownWidth(kept + sign) > columns - CUT.length) break;
    kept += sign;
  }
  return kept + CUT;
}
