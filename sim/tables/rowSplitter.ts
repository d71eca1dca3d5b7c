import { CsvError } from 'csv-parse';
import { parse } from 'csv-parse/sync';

/** A blank stands for any run of blanks and tabs. */
export type Delimiter = ',' | ';' | '\t' | '|' | ' ';

/** Takes text in pieces, gives rows. */
export interface RowSplitter {
  push: (text: string) => void;
  /** Gives the last row, which may lack its line break. */
  end: () => void;
}

/** A row: its wanted cells (in the order wanted, trimmed, '' where it has none), how many cells it has, its 1-based last line. */
export type TakeRow = (cells: string[], width: number, line: number, last: boolean) => void;

/** What went wrong with the quotes, and on which line. */
export class OpenQuote extends Error {
  readonly line: number;

  constructor(line: number) {
    super('a quote that is never closed');
    this.line = line;
  }
}

/**
 * Splits text into rows and rows into their wanted cells. Plain rows are cut where the delimiter stands; from the
 * moment a quote appears, csv-parse does it. The cells array is the same for every row: copy what you keep.
 * Lines that are blank are left out. `last` is true only of a final row that lacks its line break.
 *
 * in: delimiter; wanted, 0-based columns, or 'all'; firstLine, lines above it are passed over; take
 * out: the splitter
 * throws: OpenQuote, from end()
 */
export function rowSplitter(
  delimiter: Delimiter,
  wanted: readonly number[] | 'all',
  firstLine: number,
  take: TakeRow,
): RowSplitter {
  let rest = '';
  let line = 1;
  const cells: string[] = wanted === 'all' ? [] : wanted.map(() => '');
  // Wanted columns in rising order, and where each goes.
  const order =
    wanted === 'all'
      ? []
      : wanted.map((column, slot) => ({ column, slot })).sort((a, b) => a.column - b.column);
  const columns = Int32Array.from(order, ({ column }) => column);
  const slots = Int32Array.from(order, ({ slot }) => slot);

  const plainRow = (text: string, from: number, to: number, last: boolean): void => {
    if (delimiter === ' ') {
      const all = text
        .slice(from, to)
        .trim()
        .split(/[ \t]+/);
      pick(all);
      take(cells, all.length, line, last);
      return;
    }
    const code = delimiter.charCodeAt(0);
    let width = 0;
    let next = 0;
    let at = from;
    if (wanted === 'all') cells.length = 0;
    while (at <= to) {
      let stop = at;
      while (stop < to && text.charCodeAt(stop) !== code) stop++;
      if (wanted === 'all') cells.push(trimmedSlice(text, at, stop));
      else
        while (next < columns.length && columns[next] === width)
          cells[slots[next++]!] = trimmedSlice(text, at, stop);
      width++;
      at = stop + 1;
    }
    for (; next < columns.length; next++) cells[slots[next]!] = '';
    take(cells, width, line, last);
  };
  const pick = (all: readonly string[]): void => {
    if (wanted === 'all') {
      cells.length = 0;
      for (const cell of all) cells.push(cell.trim());
    } else for (let i = 0; i < wanted.length; i++) cells[i] = (all[wanted[i]!] ?? '').trim();
  };

  const plain = (text: string, final: boolean): void => {
    let at = 0;
    while (at < text.length) {
      let stop = text.indexOf('\n', at);
      const last = stop === -1;
      if (last) stop = text.length;
      if (!isBlank(text, at, stop)) plainRow(text, at, stop, last && final);
      line++;
      at = stop + 1;
    }
  };
  const quoted = (body: string, final: boolean): void => {
    const before = line;
    const closed = body.endsWith('\n');
    let records: { record: string[]; info: { lines: number } }[];
    try {
      records = parse(body, {
        delimiter: delimiter === ' ' ? [' ', '\t'] : delimiter,
        record_delimiter: '\n',
        relax_column_count: true,
        relax_quotes: true,
        skip_empty_lines: true,
        info: true,
      }) as unknown as typeof records;
    } catch (error) {
      if (!(error instanceof CsvError)) throw error;
      const lines = 'lines' in error && typeof error.lines === 'number' ? error.lines : 0;
      throw new OpenQuote(before + Math.max(0, lines - 1));
    }
    records.forEach(({ record, info }, i) => {
      const row = delimiter === ' ' ? record.filter((cell) => cell !== '') : record;
      if (row.every((cell) => cell.trim() === '')) return;
      pick(row);
      take(cells, row.length, before - 1 + info.lines, final && !closed && i === records.length - 1);
    });
    line = before + countOf(body, '\n');
  };

  return {
    push: (piece) => {
      let text = rest === '' ? piece : rest + piece;
      // A lone carriage return ends a line too; one at the very end may be half of a pair.
      const half = text.endsWith('\r');
      if (half) text = text.slice(0, -1);
      if (text.includes('\r')) text = text.replaceAll('\r\n', '\n').replaceAll('\r', '\n');
      // Lines above the rows are not CSV: quotes there mean nothing.
      while (line < firstLine) {
        const stop = text.indexOf('\n');
        if (stop === -1) break;
        text = text.slice(stop + 1);
        line++;
      }
      const end = line < firstLine ? 0 : lastWholeLine(text);
      rest = text.slice(end) + (half ? '\r' : '');
      const block = text.slice(0, end);
      if (block.includes('"')) quoted(block, false);
      else plain(block, false);
    },
    end: () => {
      const text = rest.replaceAll('\r\n', '\n').replaceAll('\r', '\n');
      rest = '';
      if (line < firstLine) return;
      if (text.includes('"')) quoted(text, true);
      else plain(text, true);
    },
  };
}

/** Position after the last line break that does not stand inside quotes. */
function lastWholeLine(text: string): number {
  const last = text.lastIndexOf('\n') + 1;
  if (!text.includes('"')) return last;
  let end = 0;
  let inside = false;
  for (let i = 0; i < last; i++) {
    const code = text.charCodeAt(i);
    if (code === 34) inside = !inside;
    else if (code === 10 && !inside) end = i + 1;
  }
  // An odd quote in a plain text would swallow the file: after so much, take it as it is.
  return last - end > 1 << 20 ? last : end;
}

function isBlank(text: string, from: number, to: number): boolean {
  for (let i = from; i < to; i++) if (text.charCodeAt(i) > 32) return false;
  return true;
}

function trimmedSlice(text: string, from: number, to: number): string {
  let a = from;
  let b = to;
  while (a < b && isSpace(text.charCodeAt(a))) a++;
  while (b > a && isSpace(text.charCodeAt(b - 1))) b--;
  return text.slice(a, b);
}

function isSpace(code: number): boolean {
  return code <= 32 || code === 160 || code === 0xfeff;
}

function countOf(text: string, sign: string): number {
  let count = 0;
  for (let at = text.indexOf(sign); at !== -1; at = text.indexOf(sign, at + 1)) count++;
  return count;
}

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
