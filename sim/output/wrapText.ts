/** Lines of the terminal are at most so long. */
export const TERMINAL_COLUMNS = 100;

/**
 * A paragraph broken into lines between words, of at most as many characters as the terminal's lines; a longer word stands alone.
 *
 * in: text, without line breaks; indent, spaces before the first line; hanging, spaces before the others;
 *   longest, characters of a line
 * out: the lines
 * @example wrapText('a lamp', 2); // => ['  a lamp']
 */
export function wrapText(text: string, indent = 0, hanging = indent, longest = TERMINAL_COLUMNS): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ').filter((some) => some !== '')) {
    const margin = lines.length === 0 ? indent : hanging;
    if (line !== '' && margin + line.length + 1 + word.length > longest) {
      lines.push(' '.repeat(margin) + line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  if (line !== '') lines.push(' '.repeat(lines.length === 0 ? indent : hanging) + line);
  return lines;
}
