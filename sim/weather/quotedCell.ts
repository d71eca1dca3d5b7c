/**
 * A cell of a file as a message shows it: in quotes, cut when long.
 *
 * in: text, trimmed
 * out: text
 * @example quotedCell(''); // => 'an empty cell'
 */
export function quotedCell(text: string): string {
  if (text === '') return 'an empty cell';
  return text.length > 40 ? `"${text.slice(0, 40)}..."` : `"${text}"`;
}
