/** What a terminal obeys, what shows nothing or turns the direction of writing, and halves of pairs; not the line break. */
const UNSEEN = /(?!\n)[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}\p{Default_Ignorable_Code_Point}]/gu;

/**
 * A text in which everything is seen: control characters and escape sequences, direction marks and isolates, signs of
 * no width and line separators by their numbers, so that names that differ by one can be told apart.
 *
 * in: text, of any origin
 * out: the text; its line breaks stay
 * source: Unicode2023 (categories of characters)
 * @example visibleText('a\u001b[2J\u200fb'); // => 'a\\u{1b}[2J\\u{200f}b'
 */
export function visibleText(text: string): string {
  return text.replace(UNSEEN, (sign) => `\\u{${sign.codePointAt(0)!.toString(16)}}`);
}

/** The same within one line: line breaks too are shown by their numbers. */
export function visibleLine(text: string): string {
  return visibleText(text).replaceAll('\n', '\\u{a}');
}

/**
 * JSON in which everything is seen: the same JSON, with what would not be seen as JSON's own escapes.
 *
 * in: json, valid
 * out: JSON of the same value
 * @example visibleJson('"a\u200fb"'); // => '"a\\u200fb"'
 */
export function visibleJson(json: string): string {
  return json.replace(UNSEEN, (sign) =>
    Array.from({ length: sign.length }, (_, k) => `\\u${hex4(sign.charCodeAt(k))}`).join(''),
  );
}

function hex4(unit: number): string {
  return unit.toString(16).padStart(4, '0');
}
