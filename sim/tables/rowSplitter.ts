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

const LINE_BREAK = 10;
const BLANK = 32;
const QUOTE = 34;
/** An odd quote in a plain text would swallow the file: after so many characters it is taken as it is. */
const LONGEST_QUOTE = 1 << 20;

/**
 * Splits text into rows and rows into their wanted cells. Quotes may hold delimiters, line breaks and doubled quotes;
 * a row that stands in quotes as a whole is split again. The cells array is the same for every row: copy what you keep.
 * Lines that are blank are left out. `last` is true only of a final row that lacks its line break.
 *
 * in: delimiter; wanted, 0-based columns, or 'all'; firstLine, lines above it are passed over; take
 * out: the splitter
 * throws: OpenQuote, from end()
 * valid: fully quoted text takes less than twice the time of plain
 */
export function rowSplitter(
  delimiter: Delimiter,
  wanted: readonly number[] | 'all',
  firstLine: number,
  take: TakeRow,
): RowSplitter {
  const cutter = rowCutter(delimiter);
  const cells: string[] = [];
  let rest = '';
  let line = 1;
  const give = (last: boolean): void => {
    const width = cutter.width();
    const count = wanted === 'all' ? width : wanted.length;
    cells.length = count;
    for (let i = 0; i < count; i++) cells[i] = cutter.cell(wanted === 'all' ? i : wanted[i]!);
    take(cells, width, line, last);
  };
  /** Gives the rows of a text of whole lines; out: where a row begins whose quote is still open, or the length. */
  const rows = (text: string, final: boolean): number => {
    let quote = text.indexOf('"');
    for (let at = 0; at < text.length; ) {
      let stop = text.indexOf('\n', at);
      if (stop === -1) stop = text.length;
      if (quote !== -1 && quote < at) quote = text.indexOf('"', at);
      if (quote === -1 || quote >= stop) cutter.plain(text, at, stop);
      else {
        const end = cutter.quoted(text, at);
        if (end === -1) {
          if (text.length - at <= LONGEST_QUOTE) {
            if (final) throw new OpenQuote(line);
            return at;
          }
          cutter.plain(text, at, stop);
        } else {
          for (; stop < end; stop = text.indexOf('\n', stop + 1)) line++;
          stop = end;
        }
      }
      if (!isBlank(text, at, stop)) give(final && stop === text.length);
      line++;
      at = stop + 1;
    }
    return text.length;
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
      const end = line < firstLine ? 0 : text.lastIndexOf('\n') + 1;
      const done = end === 0 ? 0 : rows(text.slice(0, end), false);
      rest = text.slice(done) + (half ? '\r' : '');
    },
    end: () => {
      const text = rest.replaceAll('\r\n', '\n').replaceAll('\r', '\n');
      rest = '';
      if (line >= firstLine) rows(text, true);
    },
  };
}

/**
 * The trimmed cells of one line, quotes taken off. For headings and samples; rows are split by `rowSplitter`.
 *
 * in: line; delimiter (a blank: any run of blanks and tabs)
 * out: cells
 */
export function splitLine(line: string, delimiter: Delimiter): string[] {
  const cutter = rowCutter(delimiter);
  if (!line.includes('"') || cutter.quoted(line, 0) === -1) cutter.plain(line, 0, line.length);
  return Array.from({ length: cutter.width() }, (_, i) => cutter.cell(i));
}

/** Finds where the cells of a row begin and end; nothing is copied but the cells that are asked for. */
interface RowCutter {
  /** A row without quotes, from one place to another. */
  plain: (text: string, from: number, to: number) => void;
  /** A row with quotes; out: where it ends, -1 where a quote is still open at the end of the text. */
  quoted: (text: string, from: number) => number;
  width: () => number;
  /** A cell of the last row, trimmed; '' beyond its last. */
  cell: (i: number) => string;
}

function rowCutter(delimiter: Delimiter): RowCutter {
  const code = delimiter.charCodeAt(0);
  const runs = delimiter === ' ';
  let source = '';
  let bounds = new Int32Array(64);
  let used = 0;
  let doubled = false;
  const add = (from: number, to: number): void => {
    if (used === bounds.length) {
      const more = new Int32Array(used * 2);
      more.set(bounds);
      bounds = more;
    }
    bounds[used] = from;
    bounds[used + 1] = to;
    used += 2;
  };
  const parts = (sign: number): boolean => sign === code || (runs && sign === 9);
  const plain = (text: string, from: number, to: number): void => {
    source = text;
    used = 0;
    doubled = false;
    let at = from;
    while (at <= to) {
      let stop = at;
      if (runs) while (at < to && isSpace(text.charCodeAt(at))) stop = ++at;
      while (stop < to && text.charCodeAt(stop) !== code && !(runs && text.charCodeAt(stop) === 9)) stop++;
      if (!runs || stop > at || used === 0) add(at, stop);
      at = stop + 1;
    }
  };
  const quoted = (text: string, from: number): number => {
    source = text;
    used = 0;
    doubled = false;
    for (let at = from; ; ) {
      while (text.charCodeAt(at) === BLANK) at++;
      let stop = at;
      if (text.charCodeAt(at) === QUOTE) {
        stop = closingQuote(text, at, parts);
        if (stop === -1) return -1;
        doubled ||= text.indexOf('"', at + 1) < stop;
        add(at + 1, stop++);
        while (stop < text.length && text.charCodeAt(stop) === BLANK && !runs) stop++;
      } else {
        while (stop < text.length && text.charCodeAt(stop) !== LINE_BREAK && !parts(text.charCodeAt(stop)))
          stop++;
        if (!runs || stop > at) add(at, stop);
      }
      if (stop >= text.length || text.charCodeAt(stop) === LINE_BREAK) {
        again(text.charCodeAt(at) === QUOTE);
        return stop;
      }
      at = stop + 1;
    }
  };
  /** A row that stands in quotes as a whole is a row of its own. */
  const again = (wasQuoted: boolean): void => {
    if (used !== 2 || !wasQuoted) return;
    const inside = cell(0);
    if (!inside.includes(delimiter)) return;
    if (!inside.includes('"') || quoted(inside, 0) === -1) plain(inside, 0, inside.length);
  };
  const cell = (i: number): string => {
    if (i * 2 >= used) return '';
    const text = trimmedSlice(source, bounds[i * 2]!, bounds[i * 2 + 1]!);
    return doubled && text.includes('""') ? text.replaceAll('""', '"') : text;
  };
  return { plain, quoted, width: () => used / 2, cell };
}

/** The quote that closes the one at a place: none doubled, and behind it the cell ends; -1 where there is none. */
function closingQuote(text: string, open: number, parts: (sign: number) => boolean): number {
  let at = text.indexOf('"', open + 1);
  while (at !== -1) {
    if (text.charCodeAt(at + 1) === QUOTE) {
      at = text.indexOf('"', at + 2);
      continue;
    }
    let after = at + 1;
    while (text.charCodeAt(after) === BLANK && !parts(BLANK)) after++;
    const sign = text.charCodeAt(after);
    if (after >= text.length || sign === LINE_BREAK || parts(sign)) return at;
    at = text.indexOf('"', at + 1);
  }
  return -1;
}

function isBlank(text: string, from: number, to: number): boolean {
  for (let i = from; i < to; i++) if (text.charCodeAt(i) > BLANK) return false;
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
  return code <= BLANK || code === 160 || code === 0xfeff;
}
