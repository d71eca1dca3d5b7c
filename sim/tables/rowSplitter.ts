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
  const cutter = new RowCutter(delimiter);
  const cells: string[] = [];
  let rest = '';
  let line = 1;
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
        const open = end === -1 && text.length - at <= LONGEST_QUOTE;
        if (open) return at;
        if (end === -1) cutter.plain(text, at, stop);
        else {
          for (; stop !== -1 && stop < end; stop = text.indexOf('\n', stop + 1)) line++;
          stop = end;
        }
      }
      if (!isBlank(text, at, stop)) {
        cutter.fill(cells, wanted);
        take(cells, cutter.width(), line, final && stop === text.length);
      }
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
      text = withLineFeeds(half ? text.slice(0, -1) : text);
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
      const text = withLineFeeds(rest);
      if (line >= firstLine && rows(text, true) < text.length) throw new OpenQuote(line);
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
  const cutter = new RowCutter(delimiter);
  if (!line.includes('"') || cutter.quoted(line, 0) === -1) cutter.plain(line, 0, line.length);
  const cells: string[] = [];
  cutter.fill(cells, 'all');
  return cells;
}

/** Finds where the cells of a row begin and end; nothing is copied but the cells that are asked for. */
class RowCutter {
  private readonly delimiter: Delimiter;
  private readonly code: number;
  /** Blanks in a row part cells as one. */
  private readonly runs: boolean;
  private readonly parts: (sign: number) => boolean;
  private source = '';
  private bounds = new Int32Array(64);
  private used = 0;
  private doubled = false;

  constructor(delimiter: Delimiter) {
    this.delimiter = delimiter;
    this.code = delimiter.charCodeAt(0);
    const code = delimiter.charCodeAt(0);
    const runs = delimiter === ' ';
    this.runs = runs;
    this.parts = (sign) => sign === code || (runs && sign === 9);
  }

  /** Cells of the last row. */
  width(): number {
    return this.used / 2;
  }

  /** Puts the wanted cells of the last row into a list, trimmed; '' beyond its last. */
  fill(cells: string[], wanted: readonly number[] | 'all'): void {
    const count = wanted === 'all' ? this.width() : wanted.length;
    cells.length = count;
    for (let i = 0; i < count; i++) cells[i] = this.cell(wanted === 'all' ? i : wanted[i]!);
  }

  /** A row without quotes, from one place to another. */
  plain(text: string, from: number, to: number): void {
    this.begin(text);
    const code = this.code;
    const runs = this.runs;
    let at = from;
    while (at <= to) {
      let stop = at;
      if (runs) while (at < to && isSpace(text.charCodeAt(at))) stop = ++at;
      while (stop < to && text.charCodeAt(stop) !== code && !(runs && text.charCodeAt(stop) === 9)) stop++;
      if (!runs || stop > at || this.used === 0) this.add(at, stop);
      at = stop + 1;
    }
  }

  /** A row with quotes; out: where it ends, -1 where a quote is still open at the end of the text. */
  quoted(text: string, from: number): number {
    this.begin(text);
    const runs = this.runs;
    const parts = this.parts;
    for (let at = from; ; ) {
      while (text.charCodeAt(at) === BLANK) at++;
      let stop = at;
      const opens = text.charCodeAt(at) === QUOTE;
      if (opens) {
        stop = closingQuote(text, at, parts);
        if (stop === -1) return -1;
        this.doubled ||= text.indexOf('"', at + 1) < stop;
        this.add(at + 1, stop++);
        while (stop < text.length && text.charCodeAt(stop) === BLANK && !runs) stop++;
      } else {
        while (stop < text.length && text.charCodeAt(stop) !== LINE_BREAK && !parts(text.charCodeAt(stop)))
          stop++;
        if (!runs || stop > at) this.add(at, stop);
      }
      if (stop >= text.length || text.charCodeAt(stop) === LINE_BREAK) {
        if (opens && this.used === 2) this.again(this.cell(0));
        return stop;
      }
      at = stop + 1;
    }
  }

  /** A row that stands in quotes as a whole is a row of its own. */
  private again(inside: string): void {
    if (!inside.includes(this.delimiter)) return;
    if (!inside.includes('"') || this.quoted(inside, 0) === -1) this.plain(inside, 0, inside.length);
  }

  private begin(text: string): void {
    this.source = text;
    this.used = 0;
    this.doubled = false;
  }

  private add(from: number, to: number): void {
    if (this.used === this.bounds.length) {
      const more = new Int32Array(this.used * 2);
      more.set(this.bounds);
      this.bounds = more;
    }
    this.bounds[this.used] = from;
    this.bounds[this.used + 1] = to;
    this.used += 2;
  }

  private cell(i: number): string {
    if (i * 2 >= this.used) return '';
    const text = trimmedSlice(this.source, this.bounds[i * 2]!, this.bounds[i * 2 + 1]!);
    return this.doubled && text.includes('""') ? text.replaceAll('""', '"') : text;
  }
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

function withLineFeeds(text: string): string {
  return text.includes('\r') ? text.replaceAll('\r\n', '\n').replaceAll('\r', '\n') : text;
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
