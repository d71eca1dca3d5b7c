/** A blank stands for any run of blanks and tabs. */
export type Delimiter = ',' | ';' | '\t' | '|' | ' ';

/** Takes text in pieces, gives rows. */
interface RowSplitter {
  push: (text: string) => void;
  /** Gives the last row, which may lack its line break. */
  end: () => void;
}

/** A row: its wanted cells (in the order wanted, trimmed, '' where it has none), how many cells it has, its 1-based last line. */
type TakeRow = (cells: string[], width: number, line: number, last: boolean) => void;

/** What went wrong with the quotes, and on which line. */
export class OpenQuote extends Error {
  readonly line: number;

  constructor(line: number) {
    super('a quote that is never closed');
    this.line = line;
  }
}

/** An odd quote in a plain text would swallow the file: after so many characters it is taken as it is. */
const LONGEST_QUOTE = 1 << 20;
/** Some programs close a text with it. */
const END_MARK = '\u001a';

/**
 * Splits text into rows and rows into their wanted cells. Quotes may hold delimiters, line breaks and doubled quotes;
 * a row that stands in quotes as a whole is split again. Lines that are blank are left out. `last` is true only of a
 * final row that lacks its line break.
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
  let rest = '';
  let line = 1;
  /** Gives the rows of a text of whole lines; out: where a row begins whose quote is still open, or the length. */
  const rows = (text: string, final: boolean): number => {
    let quote = text.indexOf('"');
    for (let at = 0; at < text.length; ) {
      let stop = text.indexOf('\n', at);
      if (stop === -1) stop = text.length;
      if (quote !== -1 && quote < at) quote = text.indexOf('"', at);
      const isQuoted = quote !== -1 && quote < stop;
      const row = isQuoted ? quotedRow(text, at, delimiter) : undefined;
      if (isQuoted && row === undefined && text.length - at <= LONGEST_QUOTE) return at;
      const end = row?.end ?? stop;
      const source = text.slice(at, end);
      for (; stop !== -1 && stop < end; stop = text.indexOf('\n', stop + 1)) line++;
      if (source.trim() !== '') {
        const cells = row?.cells ?? plainCells(source, delimiter);
        const trimmed =
          wanted === 'all'
            ? cells.map((cell) => cell.trim())
            : wanted.map((place) => (place < cells.length ? cells[place]!.trim() : ''));
        take(trimmed, cells.length, line, final && end === text.length);
      }
      line++;
      at = end + 1;
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
      const text = withLineFeeds(rest).replace(END_MARK, '');
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
  return cellsOf(line, delimiter).map((cell) => cell.trim());
}

function cellsOf(row: string, delimiter: Delimiter): string[] {
  const quoted = row.includes('"') ? quotedRow(row, 0, delimiter) : undefined;
  return quoted?.cells ?? plainCells(row, delimiter);
}

/** Cells of a row without quotes. */
function plainCells(row: string, delimiter: Delimiter): string[] {
  if (delimiter !== ' ') return row.split(delimiter);
  const cells = row.replaceAll('\t', ' ').split(' ');
  const filled = cells.filter((cell) => cell !== '');
  return filled.length === 0 ? [''] : filled;
}

/** Where a cell ends, and what may close a quote (a doubled one does not), behind which a cell must end. */
const SIGNS = Object.fromEntries(
  [',', ';', '\t', '|', ' '].map((delimiter) => {
    const ends = delimiter === ' ' ? String.raw`[ \t\n]` : String.raw`[${delimiter}\n]`;
    return [delimiter, { end: new RegExp(ends, 'g'), quote: new RegExp(`"(?="| *(?:${ends}|$))`, 'g') }];
  }),
) as Record<Delimiter, Record<'end' | 'quote', RegExp>>;

/** Place of the next sign of a kind, the end of the text where there is none. */
function placeOf(pattern: RegExp, text: string, from: number): number {
  pattern.lastIndex = from;
  return pattern.test(text) ? pattern.lastIndex - 1 : text.length;
}

/** A row with quotes: its cells, and where it ends; undefined where a quote is still open at the end of the text. */
function quotedRow(
  text: string,
  from: number,
  delimiter: Delimiter,
): { cells: string[]; end: number } | undefined {
  const { end, quote } = SIGNS[delimiter];
  const cells: string[] = [];
  for (let at = from; ; ) {
    while (text[at] === ' ') at++;
    const opens = text[at] === '"';
    let close = at;
    if (opens) {
      close = placeOf(quote, text, at + 1);
      while (text[close + 1] === '"') close = placeOf(quote, text, close + 2);
      if (close === text.length) return undefined;
    }
    const stop = placeOf(end, text, close);
    const cell = opens ? text.slice(at + 1, close).replaceAll('""', '"') : text.slice(at, stop);
    if (opens || delimiter !== ' ' || cell !== '') cells.push(cell);
    if (stop === text.length || text[stop] === '\n') {
      // A row that stands in quotes as a whole is a row of its own.
      const inside = cell.trim();
      const isWhole = opens && cells.length === 1 && inside.includes(delimiter);
      return { cells: isWhole ? cellsOf(inside, delimiter) : cells, end: stop };
    }
    at = stop + 1;
  }
}

function withLineFeeds(text: string): string {
  return text.includes('\r') ? text.replaceAll('\r\n', '\n').replaceAll('\r', '\n') : text;
}
