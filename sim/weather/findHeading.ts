/** The heading row of a CSV text. */
export interface Heading {
  delimiter: ',' | ';' | '\t';
  /** Headings, trimmed, without quotes. */
  cells: string[];
  /** 1-based line it stands on. */
  line: number;
  /** Where the rows below it begin in the text. */
  end: number;
}

const DELIMITERS = [',', ';', '\t'] as const;
const MOST_PREAMBLE_LINES = 200;

/**
 * The heading row of a CSV text: the first line that holds most of the wanted headings, so that a preamble above
 * it does no harm; where none holds any, the first line that is not blank.
 *
 * in: text, not blank; wanted, headings that are looked for
 * out: the heading row, its delimiter and its place
 */
export function findHeading(text: string, wanted: readonly string[]): Heading {
  let best: { heading: Heading; score: number } | undefined;
  let start = 0;
  for (let line = 1; line <= MOST_PREAMBLE_LINES && start < text.length; line++) {
    const stop = lineEnd(text, start);
    const end = text.startsWith('\r\n', stop) ? stop + 2 : Math.min(stop + 1, text.length);
    const row = text.slice(start, stop);
    start = end;
    if (row.trim() === '') continue;
    for (const delimiter of DELIMITERS) {
      const cells = splitRow(row, delimiter);
      const score = wanted.filter((heading) => cells.includes(heading.trim())).length;
      const better =
        best === undefined ||
        score > best.score ||
        (score === best.score && line === best.heading.line && cells.length > best.heading.cells.length);
      if (better) best = { heading: { delimiter, cells, line, end }, score };
    }
    if (best?.score === wanted.length) break;
  }
  return best?.heading ?? { delimiter: ',', cells: [], line: 1, end: text.length };
}

function lineEnd(text: string, start: number): number {
  for (let i = start; i < text.length; i++) {
    const code = text.charCodeAt(i);
    if (code === 10 || code === 13) return i;
  }
  return text.length;
}

function splitRow(row: string, delimiter: string): string[] {
  const cells: string[] = [];
  let cell = '';
  let quoted = false;
  for (const char of row) {
    if (char === '"') quoted = !quoted;
    else if (char === delimiter && !quoted) {
      cells.push(cell.trim());
      cell = '';
    } else cell += char;
  }
  cells.push(cell.trim());
  return cells;
}
