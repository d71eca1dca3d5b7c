import type { Delimiter } from './DetectedFormat.ts';

/**
 * The trimmed cells of one line, quotes taken off. For headings and samples; rows are split by `rowSplitter`.
 *
 * in: line; delimiter (a blank: any run of blanks and tabs)
 * out: cells
 */
export function splitLine(line: string, delimiter: Delimiter): string[] {
  if (!line.includes('"')) {
    if (delimiter !== ' ') return line.split(delimiter).map((cell) => cell.trim());
    const bare = line.trim();
    return bare === '' ? [''] : bare.split(/[ \t]+/);
  }
  const cells: string[] = [];
  let cell = '';
  let quoted = false;
  for (const char of line) {
    if (char === '"') quoted = !quoted;
    else if (!quoted && (delimiter === ' ' ? char === ' ' || char === '\t' : char === delimiter)) {
      cells.push(cell.trim());
      cell = '';
    } else cell += char;
  }
  cells.push(cell.trim());
  return delimiter === ' ' ? cells.filter((text) => text !== '') : cells;
}
