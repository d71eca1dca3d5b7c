import type { Problem } from '../common/InputProblem.ts';
import type { ProblemList } from '../common/problemList.ts';
import { DAY_MS } from '../common/time.ts';
import { quotedCell } from './parseNumber.ts';
import { stampRange } from './stampRanges.ts';
import { clockMs, dateMs, readClock, STAMP_STYLES, type StampStyle, statedOffset } from './stampStyles.ts';

/** What the cells of a row say: date and clock time whole, in milliseconds, or in parts. */
type Found = Partial<
  Record<'date_ms' | 'clock_ms' | 'day_of_year' | 'month' | 'day' | 'hour' | 'minute' | 'second', number>
> & { year: number };

type PartReading = readonly [
  what: keyof Found,
  read: (text: string) => number,
  ms?: (value: number) => number,
];

/** Day 0 of a spreadsheet's calendar, 30 December 1899. */
const SERIAL_DAY_0_MS = -25_569 * DAY_MS;

/** Years have four digits: a number beyond counts something else. */
const YEAR_10000_MS = Date.UTC(10_000, 0, 1);

/** What each part but a written date says, how its cell is read, and what the number counts where it is no part itself. */
const PARTS = {
  clock: ['clock_ms', readClock],
  hhmm: ['clock_ms', integer, (value) => clockMs(Math.floor(value / 100), value % 100, 0)],
  year: ['year', integer],
  month: ['month', integer],
  day: ['day', integer],
  hour: ['hour', hourOf],
  minute: ['minute', Number],
  second: ['second', decimalNumber],
  'day fraction': ['clock_ms', dayFraction],
  'day of year': ['day_of_year', decimalNumber],
  'epoch s': ['date_ms', decimalNumber, (value) => Math.round(value * 1000)],
  'epoch ms': ['date_ms', decimalNumber, Math.round],
  // Days of 15 decimals are good to a millisecond; stamps are whole seconds.
  'serial day': ['date_ms', decimalNumber, (value) => SERIAL_DAY_0_MS + Math.round(value * 86_400) * 1000],
  'hour of year': ['date_ms', decimalNumber, (value) => dateMs(2001, 1, 1) + Math.round(value * 3600) * 1000],
} as const satisfies Record<string, PartReading>;

/** One part of a time stamp and the column (0-based) it stands in. */
export interface StampPart {
  part: 'text' | 'half of the day' | keyof typeof PARTS;
  column: number;
  /** Of a 'text': name of the style it is written in. */
  style?: string;
  /** Of a 'minute' that runs to 60: the hours count from 1, the minute says how far into them. */
  hoursFromOne?: true;
  /** Of a 'text' or a 'clock': each cell states its whole interval, of which the start is read. */
  ranges?: true;
  /** Of a 'year' of two digits, or an 'hour of year' counted from 0 or 1. */
  add?: number;
}

/** Reads the wall clock of rows; one object per file, nothing is allocated per row. */
export interface StampReader {
  /** Columns it wants, 0-based, in rising order. */
  columns: number[];
  /** Wall clock as if it were UTC, milliseconds, from the cells of those columns (at `first` and on); NaN: no time. */
  read: (cells: readonly string[], first: number) => number;
  /** Offset the last text stated itself, milliseconds; NaN where it stated none. */
  offset_ms: () => number;
}

/**
 * A reader of stamps made of the given parts: wall-clock milliseconds of a row.
 *
 * in: parts, at least one that holds the date
 * out: the reader
 * valid: texts of common styles about 3 million a second
 */
export function stampReader(parts: readonly StampPart[]): StampReader {
  const columns = [...new Set(parts.map((part) => part.column))].sort((a, b) => a - b);
  const half = parts.find(({ part }) => part === 'half of the day');
  const halfAt = half === undefined ? -1 : columns.indexOf(half.column);
  const fromOne = parts.some(({ hoursFromOne }) => hoursFromOne === true);
  const readings = parts
    .filter((part) => part !== half)
    .map(({ part, style, column, ranges, add = 0 }) => {
      const written = STAMP_STYLES.find(({ name }) => name === style)?.read;
      const [what, readWhole, ms]: PartReading =
        written === undefined ? PARTS[part as keyof typeof PARTS] : ['date_ms', written];
      return {
        what,
        read: ranges === undefined ? readWhole : startOf(readWhole),
        ms,
        add,
        at: columns.indexOf(column),
        states: part === 'text' || part === 'clock',
      };
    });
  const found: Found = { year: 2001 };
  let offset_ms = Number.NaN;
  return {
    columns,
    read: (cells, first) => {
      offset_ms = Number.NaN;
      for (const { what, read, ms, add, at, states } of readings) {
        const text = cells[first + at]!;
        const value =
          read(halfAt < 0 || what !== 'clock_ms' ? text : `${text} ${cells[first + halfAt]!}`) + add;
        found[what] = ms === undefined ? value : ms(value);
        // Of a date and a clock that stand apart, either may state it.
        if (states && !Number.isNaN(statedOffset())) offset_ms = statedOffset();
      }
      const wall_ms = foundDate(found) + foundClock(found, fromOne);
      return Math.abs(wall_ms) < YEAR_10000_MS ? wall_ms : Number.NaN;
    },
    offset_ms: () => offset_ms,
  };
}

/** Reads the start of a range that a cell states; NaN where it states none. */
function startOf(read: (text: string) => number): (text: string) => number {
  return (text) => read(stampRange(text)?.from ?? '');
}

function foundDate({ date_ms, year, month, day, day_of_year }: Found): number {
  if (date_ms !== undefined) return date_ms;
  if (day_of_year === undefined) return dateMs(year, month!, day!);
  if (!(day_of_year >= 0 && day_of_year < 367)) return Number.NaN;
  return dateMs(year, 1, 1) + Math.round((day_of_year - 1) * 86_400) * 1000;
}

/** 0 where the date holds all. */
function foundClock({ clock_ms, hour, minute = 0, second = 0 }: Found, fromOne: boolean): number {
  if (clock_ms !== undefined || hour === undefined) return clock_ms ?? 0;
  // Where hours count from 1, a minute of 60 says that the hour is full.
  if (fromOne && minute === 60) return clockMs(hour, 0, second);
  return clockMs(fromOne ? hour - 1 : hour, minute, second);
}

/** An hour, '5', '05', '5.5' or '5,5'. */
function hourOf(text: string): number {
  if (text.length <= 2) return integer(text);
  return /^\d{1,2}[.,]\d+$/.test(text) ? decimalNumber(text) : Number.NaN;
}

/** A spreadsheet's time of day, milliseconds: to the minute where four decimals or fewer tell no seconds. */
function dayFraction(text: string): number {
  const share = decimalNumber(text);
  const step_ms = text.length > '0.1234'.length ? 1000 : 60_000;
  return share >= 0 && share <= 1 ? Math.round((share * DAY_MS) / step_ms) * step_ms : Number.NaN;
}

/** A whole number, also written '2021.0'; NaN for anything else. */
function integer(text: string): number {
  const value = decimalNumber(text);
  return Number.isInteger(value) ? value : Number.NaN;
}

function decimalNumber(text: string): number {
  return text === '' ? Number.NaN : Number(text.replace(',', '.'));
}

/**
 * The instant a stamp's text names, UTC milliseconds. An offset in the text ('Z', '+01:00', ' UTC') counts
 * before the zone of the file.
 *
 * in: text, blanks around it allowed; style, how it is written; zone_ms, what the file's clock is ahead of UTC
 * out: UTC milliseconds
 * NaN when: the text is not of that style, or the calendar has no such time
 * valid: some million stamps a second
 * source: ISO8601
 */
export function parseStamp(text: string, style: StampStyle, zone_ms: number): number {
  const wall_ms = style.read(text.trim());
  const own_ms = statedOffset();
  return wall_ms - (Number.isNaN(own_ms) ? zone_ms : own_ms);
}

/**
 * The styles that fit a column of stamps best. More than one means that the file does not settle it
 * (day-month or month-day, where no day is above 12).
 *
 * in: texts, as they stand in the file
 * out: the best styles, all equally good, likeliest first, and how many texts they read; none when no stamp can be read
 */
export function chooseStampStyle(texts: readonly string[]): { styles: StampStyle[]; readable: number } {
  const counts = STAMP_STYLES.map(
    (style) => texts.filter((text) => !Number.isNaN(parseStamp(text, style, 0))).length,
  );
  const readable = Math.max(...counts);
  return { styles: STAMP_STYLES.filter((_, k) => readable > 0 && counts[k] === readable), readable };
}

/**
 * The instants of a column of stamps, all written in one style.
 *
 * in: where, file, heading and column for messages; texts and the line of each; zone_ms, what the file's clock is
 * ahead of UTC
 * out: UTC milliseconds, NaN where a text is no time; the style, undefined where there is none. Two styles that fit
 * alike, and texts that are no time, are put on the list of problems
 */
export function stampTimes(
  where: Pick<Problem, 'file' | 'field' | 'column'>,
  texts: readonly string[],
  line: readonly number[],
  zone_ms: number,
  problems: ProblemList,
): { times: number[]; style: StampStyle | undefined } {
  const { styles } = chooseStampStyle(texts);
  const [style] = styles;
  if (styles.length > 1) {
    problems.add('style', () => ({
      ...where,
      code: 'WEATHER_AMBIGUOUS',
      line: line[0]!,
      got: `${quotedCell(texts[0]!)}, which could be ${styles.map(({ name }) => name).join(' or ')}`,
      expected: 'stamps that can be read in one way only',
      fix: 'write them as 2021-12-31 23:00.',
    }));
  }
  const times = texts.map((text, row) => {
    const time = style === undefined ? Number.NaN : parseStamp(text, style, zone_ms);
    if (Number.isNaN(time)) {
      problems.add('stamp', () => ({
        ...where,
        code: 'WEATHER_STAMP_UNREADABLE',
        line: line[row]!,
        got: quotedCell(text),
        expected: `a time that exists, written as ${style?.example ?? '2021-12-31 23:00'}`,
        fix: 'correct the stamp, or name another stamp column.',
      }));
    }
    return time;
  });
  return { times, style };
}
