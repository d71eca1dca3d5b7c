import { cross, extent, greatest, range, rollup } from 'd3-array';
import { areRanges, stampRange } from '../../tables/stampRanges.ts';
import type { StampPart } from '../../tables/stampReader.ts';
import { readClock, STAMP_STYLES } from '../../tables/stampStyles.ts';
import { classifyCell } from './classifyCell.ts';
import type { Layout } from './DetectedFormat.ts';
import { STAMP_WORDS } from './quantityWords.ts';
import { normaliseHeading } from './words.ts';

/** A way the stamp may be put together. */
export interface StampCandidate {
  parts: StampPart[];
  /** The headings name the parts. */
  named: boolean;
}

interface Column {
  index: number;
  /** What most filled cells are. */
  kind: string;
  whole: boolean;
  least: number;
  most: number;
  /** Digits of all whole numbers alike, 0 where they differ. */
  digits: number;
  words: ReadonlySet<string>;
  texts: string[];
}

/** One part of a stamp, and whether words say that its column is that. */
type Piece = StampPart & { says: boolean };

/** A date, and whether it may stand by itself or with a time of day in other columns. */
interface WrittenDate {
  pieces: Piece[];
  alone: boolean;
  withClock: boolean;
}

/**
 * All ways in which the columns could make up a time stamp, whatever their order; `findStamps` tries which of them
 * makes the rows follow each other.
 *
 * in: rows of a sample; layout
 * out: candidates
 */
export function stampCandidates(rows: readonly string[][], layout: Layout): StampCandidate[] {
  const columns = range(layout.width).map((index) => describe(rows, layout, index));
  const headed = layout.headings.length > 0;
  const dates = [
    ...columns.flatMap(writtenDates),
    ...columns.flatMap((column) => countedTimes(column, columns)),
    ...yearParts(columns).flatMap((year) => [
      ...monthAndDay(year, columns, headed),
      ...dayOfYear(year, columns),
    ]),
  ];
  return dates
    .flatMap(({ pieces, alone, withClock }) => [
      ...(alone ? [pieces] : []),
      ...(withClock ? clocksBeside(pieces, columns, headed) : []).map((clock) => [...pieces, ...clock]),
    ])
    .map((pieces) => ({
      parts: pieces.map(({ says: _, ...part }) => part),
      named: pieces.every(({ says }) => says),
    }));
}

/** A column that holds dates, with or without the time. */
function writtenDates({ index, kind, whole, texts, digits, words }: Column): WrittenDate[] {
  const packed = whole && [8, 10, 12, 14].includes(digits) && /^(18|19|20)/.test(texts[0] ?? '');
  if (kind !== 'stamp' && kind !== 'date' && !packed) return [];
  const some = texts.slice(0, 40);
  return STAMP_STYLES.flatMap(({ name, read }) => {
    const ranges = kind === 'stamp' && areRanges(texts, read) ? ({ ranges: true } as const) : {};
    const starts = 'ranges' in ranges ? some.map((text) => stampRange(text)?.from ?? '') : some;
    const readable = starts.filter((text) => !Number.isNaN(read(text))).length;
    if (readable < 0.9 * some.length) return [];
    const piece: Piece = { part: 'text', column: index, style: name, ...ranges, says: words.has('date') };
    return [{ pieces: [piece], alone: true, withClock: kind === 'date' || digits === 8 }];
  });
}

/**
 * A column that counts from the start of an era or of the year. The first one may count the hours of the year without
 * saying so, but not beside one that holds dates: then it numbers the rows.
 */
function countedTimes(column: Column, columns: readonly Column[]): WrittenDate[] {
  const { index, kind, whole, least, most, digits, words } = column;
  if (kind !== 'number') return [];
  const dated = words.has('date');
  const ofYear = words.has('hour of year');
  const unsaid = index === 0 && !columns.some(holdsDates);
  const between = (low: number, high: number): boolean => least > low && most < high;
  const counts: [part: StampPart['part'], fits: boolean][] = [
    ['epoch s', whole && between(3e8, 4e9) && digits >= 9],
    ['epoch ms', whole && between(3e11, 4e12)],
    ['serial day', between(20_000, 80_000) && (dated || index === 0)],
    ['hour of year', isWhole(column, 0, 8784) && most > 366 && (words.has('hour') || ofYear || unsaid)],
  ];
  return counts
    .filter(([, fits]) => fits)
    .map(([part]) => {
      const add = part !== 'hour of year' ? {} : { add: least === 0 ? 0 : -1 };
      const says = part === 'hour of year' ? ofYear : dated;
      const withClock = part === 'serial day' && whole;
      return { pieces: [{ part, column: index, ...add, says }], alone: true, withClock };
    });
}

/** Dates, or what else has a name and changes with a number: written in a way that no style reads, it is a date too. */
function holdsDates({ kind, texts }: Column): boolean {
  if (kind === 'date' || kind === 'stamp') return true;
  return kind === 'word' && texts.every((text) => /\d/.test(text) && /[^\W\d_]{3}/.test(text));
}

/** Columns that may hold the year, and none for a stamp without one. */
function yearParts(columns: readonly Column[]): Piece[][] {
  const years = columns.flatMap((column): Piece[] => {
    const { index, most, words } = column;
    const piece = { part: 'year', column: index, says: words.has('year') } as const;
    if (isFullYear(column)) return [piece];
    return isWhole(column, 0, 99) && piece.says ? [{ ...piece, add: most < 50 ? 2000 : 1900 }] : [];
  });
  return [...years.map((year) => [year]), []];
}

function isFullYear(column: Column): boolean {
  return isWhole(column, 1800, 2199) && column.digits === 4;
}

function monthAndDay(year: Piece[], columns: readonly Column[], headed: boolean): WrittenDate[] {
  if (year.length === 0 && columns.some(isFullYear)) return [];
  const months = columns.filter((column) => isWhole(column, 1, 12));
  const days = columns.filter((column) => isWhole(column, 1, 31));
  return cross(months, days).flatMap(([month, day]) => {
    const pieces: Piece[] = [
      ...year,
      { part: 'month', column: month.index, says: month.words.has('month') },
      { part: 'day', column: day.index, says: day.words.has('day') },
    ];
    const indices = pieces.map(({ column }) => column);
    if (new Set(indices).size < indices.length) return [];
    const [first, last] = extent(indices) as [number, number];
    // One column, such as the day of the year, may stand between.
    const beside = !headed && last - first <= indices.length;
    const isDate = beside || pieces.every(({ says }) => says);
    return isDate ? [{ pieces, alone: false, withClock: true }] : [];
  });
}

function dayOfYear(year: Piece[], columns: readonly Column[]): WrittenDate[] {
  return columns.flatMap(({ index, kind, whole, least, most, words }) => {
    const says = words.has('day of year');
    const fits = kind === 'number' && least >= 0 && most < 367 && index !== year[0]?.column;
    const afterYear = year.length > 0 && index === year[0]!.column + 1 && most > 31;
    if (!fits || (!says && !afterYear)) return [];
    const pieces: Piece[] = [
      ...year.map((piece) => ({ ...piece, says: true })),
      { part: 'day of year', column: index, says },
    ];
    return [{ pieces, alone: !whole, withClock: true }];
  });
}

/** Each time of day that stands near a date or has a name, with the half of the day, minutes and seconds beside it. */
function clocksBeside(date: readonly Piece[], columns: readonly Column[], headed: boolean): Piece[][] {
  const after = Math.max(...date.map(({ column }) => column));
  const isFree = ({ index }: Column): boolean => !date.some(({ column }) => column === index);
  const isMeant = ({ index, words }: Column, ...names: string[]): boolean =>
    (index > after && index <= after + 2) || names.some((name) => words.has(name));
  return columns.flatMap((column): Piece[][] => {
    const { index, kind, words } = column;
    const says = words.has('hour');
    const list: Piece[][] = [];
    if (isFree(column) && areRanges(column.texts, readClock)) {
      list.push([{ part: 'clock', column: index, ranges: true, says: true }]);
    } else if (kind === 'clock') {
      const texts = columns[index + 1]?.texts ?? [];
      const halves = texts.length > 0 && texts.every((text) => /^[ap]\.?m\.?$/i.test(text));
      const half: Piece[] = halves ? [{ part: 'half of the day', column: index + 1, says: true }] : [];
      list.push([{ part: 'clock', column: index, says: true }, ...half]);
    }
    if (isDayFraction(column) && isMeant(column, 'hour', 'date'))
      list.push([{ part: 'day fraction', column: index, says: says || words.has('date') }]);
    if (isHhmm(column) && isMeant(column, 'hhmm', 'hour')) list.push([{ part: 'hhmm', column: index, says }]);
    if (isHour(column, headed) && isFree(column) && isMeant(column, 'hour')) {
      const hour: Piece = { part: 'hour', column: index, says };
      const minutes = columns.filter(
        (other) =>
          isWhole(other, 0, 60) &&
          isFree(other) &&
          other !== column &&
          (other.words.has('minute') || (!headed && other.index === index + 1)),
      );
      list.push([hour], ...minutes.flatMap((minute) => withMinute(hour, minute, columns[minute.index + 1])));
    }
    return list;
  });
}

/** An hour with its minute, and with the second where the next column holds it. */
function withMinute(hour: Piece, { index, most, words }: Column, next: Column | undefined): Piece[][] {
  const fromOne = most === 60 ? ({ hoursFromOne: true } as const) : {};
  const pieces: Piece[] = [hour, { part: 'minute', column: index, ...fromOne, says: words.has('minute') }];
  if (next?.kind !== 'number' || !next.words.has('second')) return [pieces];
  return [pieces, [...pieces, { part: 'second', column: next.index, says: true }]];
}

function isWhole(column: Column, least: number, most: number): boolean {
  return column.kind === 'number' && column.whole && column.least >= least && column.most <= most;
}

/** Whole hours, or with their quarters (13.25) named ones, and any that run through the day where nothing has a name. */
function isHour(column: Column, headed: boolean): boolean {
  const { kind, least, most, whole, words } = column;
  const told = whole || words.has('hour') || (!headed && most > 22);
  return kind === 'number' && told && least >= 0 && most <= 24 && most > least;
}

/** A spreadsheet's time of day. */
function isDayFraction({ kind, whole, least, most }: Column): boolean {
  return kind === 'number' && !whole && least >= 0 && most <= 1 && most > 0.5;
}

function isHhmm(column: Column): boolean {
  return (
    isWhole(column, 0, 2400) && column.most > 24 && column.texts.every((text) => Number(text) % 100 < 60)
  );
}

function describe(rows: readonly string[][], layout: Layout, index: number): Column {
  const cells = range(0, rows.length, Math.max(1, Math.floor(rows.length / 4000)))
    .map((r) => rows[r]![index] ?? '')
    .map((text) => ({ text, kind: classifyCell(text) }))
    .filter(({ kind }) => kind !== 'empty');
  const counts = rollup(
    cells,
    (list) => list.length,
    ({ kind }) => kind,
  );
  const kind = greatest(counts, ([, count]) => count)?.[0] ?? 'empty';
  const figures = cells.filter((cell) => cell.kind === 'number').map(({ text }) => text);
  const [least = Infinity, most = -Infinity] = extent(figures, (text) => Number(text.replace(',', '.')));
  const lengths = new Set(figures.map((text) => text.length));
  const heading = normaliseHeading(`${layout.headings[index] ?? ''} ${layout.units[index] ?? ''}`);
  const legend = normaliseHeading(layout.legends[index] ?? '').slice(0, 40);
  const words = stampWords(heading);
  return {
    index,
    kind: kind === 'date' && counts.has('stamp') ? 'stamp' : kind,
    whole: kind === 'number' && figures.every((text) => /^\d+(?:\.0+)?$/.test(text)),
    least,
    most,
    digits: lengths.size === 1 ? [...lengths][0]! : 0,
    words: words.size > 0 ? words : stampWords(legend),
    texts: cells.map(({ text }) => text),
  };
}

/** Parts of a stamp that words name. */
function stampWords(words: string): Set<string> {
  return new Set(STAMP_WORDS.filter(([pattern]) => pattern.test(words)).map(([, part]) => part));
}
