import type { Problem } from '../common/InputProblem.ts';
import type { ProblemList } from '../common/problemList.ts';
import { DAY_MS, HOUR_MS } from '../common/time.ts';
import { quotedCell } from './parseNumber.ts';
import { civilMs, MORE_STAMP_STYLES, parseOffset, STAMP_STYLES, type StampStyle } from './stampStyles.ts';

/** One part of a time stamp and the column (0-based) it stands in. */
export interface StampPart {
  part:
    | 'text'
    | 'clock'
    | 'half of the day'
    | 'hhmm'
    | 'year'
    | 'month'
    | 'day'
    | 'hour'
    | 'minute'
    | 'second'
    | 'day of year'
    | 'epoch s'
    | 'epoch ms'
    | 'serial day'
    | 'hour of year';
  column: number;
  /** Of a 'text': name of the style it is written in. */
  style?: string;
  /** Of a 'minute' that runs to 60: the hours count from 1, the minute says how far into them. */
  hoursFromOne?: true;
  /** Of a 'year' of two digits, or an 'hour of year' counted from 0 or 1. */
  add?: number;
}

/** Day 0 of a spreadsheet's calendar, 30 December 1899. */
const SERIAL_DAY_0_MS = -25_569 * DAY_MS;

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
  const at = (name: StampPart['part']): number => {
    const part = parts.find((candidate) => candidate.part === name);
    return part === undefined ? -1 : columns.indexOf(part.column);
  };
  const whole = parts.find(({ part }) => part === 'text');
  let offset_ms = Number.NaN;
  let date: (cells: readonly string[], first: number) => number;
  if (whole !== undefined) {
    const place = columns.indexOf(whole.column);
    // Of an interval the start is read, written as any text with the year first.
    const interval = whole.style === 'interval from/to';
    const style = interval
      ? MORE_STAMP_STYLES[0]!
      : MORE_STAMP_STYLES.find(({ name }) => name === whole.style)!;
    const text = textReader(style, (offset) => {
      offset_ms = offset;
    });
    date = interval
      ? (cells, first) => {
          const slash = cells[first + place]!.indexOf('/', 10);
          return slash < 0 ? Number.NaN : text(cells[first + place]!.slice(0, slash));
        }
      : (cells, first) => text(cells[first + place]!);
  } else {
    date = numericDate(parts, at);
  }
  const clock = at('clock');
  const half = at('half of the day');
  const hhmm = at('hhmm');
  const hour = at('hour');
  const minute = at('minute');
  const second = at('second');
  const fromOne = parts.some((part) => part.hoursFromOne === true);
  const timed = clock >= 0 || hhmm >= 0 || hour >= 0;
  const timeOfDay = (cells: readonly string[], first: number): number => {
    if (clock >= 0) {
      const text = cells[first + clock]!;
      const end = clockOffsetStart(text);
      // A date in the cell before may have set it to none.
      if (end < text.length) offset_ms = parseOffset(text.slice(end));
      const bare = end < text.length ? text.slice(0, end) : text;
      return clockMs(half < 0 ? bare : `${bare} ${cells[first + half]!}`);
    }
    if (hhmm >= 0) return hhmmMs(integer(cells[first + hhmm]!));
    const h = hour < 0 ? 0 : hourOf(cells[first + hour]!);
    const m = minute < 0 ? 0 : Number(cells[first + minute]!);
    const s = second < 0 ? 0 : Number(cells[first + second]!.replace(',', '.'));
    return timeMs(h, m, s, fromOne);
  };
  return {
    columns,
    read: timed ? (cells, first) => date(cells, first) + timeOfDay(cells, first) : date,
    offset_ms: () => offset_ms,
  };
}

/** Milliseconds since midnight; fromOne: hours count from 1 and the minute, to 60, says how far into them. */
function timeMs(hour: number, m: number, s: number, fromOne: boolean): number {
  const h = fromOne ? hour - 1 : hour;
  if (!(h >= 0 && h <= 24 && m >= 0 && m <= 60 && s >= 0 && s < 61)) return Number.NaN;
  if (m === 60 && !fromOne) return Number.NaN;
  const ms = h * HOUR_MS + m * 60_000 + s * 1000;
  return ms > DAY_MS ? Number.NaN : Math.round(ms);
}

/** Texts of one style, quick where the date is the same as in the row before. */
function textReader(style: StampStyle, setOffset: (offset_ms: number) => void): (text: string) => number {
  let prefix = '\0';
  let day_ms = Number.NaN;
  const monthFirst = style.name === 'month name-day-year';
  return (written) => {
    // The name of a day of the week says nothing new.
    const text =
      written.charCodeAt(0) > 64 && !monthFirst ? written.slice(written.indexOf(' ') + 1) : written;
    const length = text.length;
    // 'date hh:mm' and 'date hh:mm:ss' after a date of ten signs
    if ((length === 16 || length === 19) && text.charCodeAt(13) === 58 && text.startsWith(prefix)) {
      const h = two(text, 11);
      const m = two(text, 14);
      const s = length === 19 ? (text.charCodeAt(16) === 58 ? two(text, 17) : Number.NaN) : 0;
      if (h < 24 && m < 60 && s < 60) {
        setOffset(Number.NaN);
        return day_ms + h * HOUR_MS + m * 60_000 + s * 1000;
      }
    }
    const end = offsetStart(text);
    if (end === text.length) {
      setOffset(Number.NaN);
      const ms = style.read(text);
      const joint = text.charCodeAt(10);
      if ((length === 16 || length === 19) && (joint === 32 || joint === 84) && text.charCodeAt(13) === 58) {
        prefix = text.slice(0, 11);
        day_ms = Math.floor(ms / DAY_MS) * DAY_MS;
        // 24:00 belongs to the next day, NaN to none: neither may be taken over.
        if (Number.isNaN(ms) || two(text, 11) > 23) prefix = '\0';
      }
      return ms;
    }
    setOffset(parseOffset(text.slice(end)));
    return style.read(text.slice(0, end).trimEnd());
  };
}

/** Number of two digits at a place; NaN where they are none. */
function two(text: string, at: number): number {
  const a = text.charCodeAt(at) - 48;
  const b = text.charCodeAt(at + 1) - 48;
  return a >= 0 && a <= 9 && b >= 0 && b <= 9 ? a * 10 + b : Number.NaN;
}

function numericDate(
  parts: readonly StampPart[],
  at: (name: StampPart['part']) => number,
): (cells: readonly string[], first: number) => number {
  const one = (name: StampPart['part'], read: (value: number) => number) => {
    const place = at(name);
    return (cells: readonly string[], first: number): number => read(decimalNumber(cells[first + place]!));
  };
  if (at('epoch s') >= 0) return one('epoch s', (value) => Math.round(value * 1000));
  if (at('epoch ms') >= 0) return one('epoch ms', (value) => Math.round(value));
  // Days of 15 decimals are good to a millisecond; stamps are whole seconds.
  if (at('serial day') >= 0) {
    return one('serial day', (value) => SERIAL_DAY_0_MS + Math.round(value * 86_400) * 1000);
  }
  if (at('hour of year') >= 0) {
    const add = parts.find(({ part }) => part === 'hour of year')?.add ?? 0;
    return one('hour of year', (value) => Date.UTC(2001, 0, 1) + Math.round((value + add) * 3600) * 1000);
  }
  const year = at('year');
  const add = parts.find(({ part }) => part === 'year')?.add ?? 0;
  const yearOf = (cells: readonly string[], first: number): number =>
    year < 0 ? 2001 : integer(cells[first + year]!) + add;
  const doy = at('day of year');
  if (doy >= 0) {
    return (cells, first) => {
      const value = decimalNumber(cells[first + doy]!);
      if (!(value >= 0 && value < 367)) return Number.NaN;
      return civilMs(yearOf(cells, first), 1, 1, 0, 0, 0) + Math.round((value - 1) * 86_400) * 1000;
    };
  }
  const month = at('month');
  const day = at('day');
  return (cells, first) =>
    civilMs(yearOf(cells, first), integer(cells[first + month]!), integer(cells[first + day]!), 0, 0, 0);
}

/** Milliseconds since midnight of '5:30', '05:30:15', '24:00', '5.30', '0530', '530', '5', '1:00 PM'. */
function clockMs(text: string): number {
  const parts =
    /^(\d{1,2})[:.h](\d{2})(?:[:.](\d{2}(?:[.,]\d+)?))?(?: ?([AaPp])\.?(?:[Mm]\.?)?)?(?:\s*(?:Z|UTC|GMT|UT))?$/.exec(
      text,
    );
  if (parts === null) return /^\d{1,6}$/.test(text) ? packedClock(text) : Number.NaN;
  let h = Number(parts[1]);
  const m = Number(parts[2]);
  const s = parts[3] === undefined ? 0 : Number(parts[3].replace(',', '.'));
  if (parts[4] !== undefined) {
    if (h < 1 || h > 12) return Number.NaN;
    h = (h % 12) + (parts[4].toLowerCase() === 'p' ? 12 : 0);
  }
  if (m > 59 || s >= 60) return Number.NaN;
  const ms = Math.round(h * HOUR_MS + m * 60_000 + s * 1000);
  return ms > DAY_MS ? Number.NaN : ms;
}

/** Where an offset begins behind a clock time, or the length of the text. */
function clockOffsetStart(text: string): number {
  for (let i = 4; i < text.length; i++) {
    const code = text.charCodeAt(i);
    if (code === 43 || code === 45) return i;
  }
  return text.endsWith('Z') ? text.length - 1 : text.length;
}

function packedClock(text: string): number {
  const value = Number(text);
  return text.length > 4
    ? hhmmMs(Math.floor(value / 100)) + (value % 100) * 1000
    : text.length > 2
      ? hhmmMs(value)
      : hhmmMs(value * 100);
}

function hhmmMs(value: number): number {
  const h = Math.floor(value / 100);
  const m = value % 100;
  return m < 60 && h * 60 + m <= 1440 ? h * HOUR_MS + m * 60_000 : Number.NaN;
}

/** An hour, '5', '05', '5.5', '5,5' or '05:00'. */
function hourOf(text: string): number {
  if (/^\d{1,2}$/.test(text)) return Number(text);
  if (/^\d{1,2}[.,]\d+$/.test(text)) return decimalNumber(text);
  return Number.NaN;
}

/** A whole number, also written '2021.0'; NaN for anything else. */
function integer(text: string): number {
  const value = Number(text);
  if (text === '') return Number.NaN;
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
 * valid: about a million stamps a second
 * source: ISO8601
 */
export function parseStamp(text: string, style: StampStyle, zone_ms: number): number {
  const bare = text.trim();
  const end = offsetStart(bare);
  if (end === bare.length) return style.read(bare) - zone_ms;
  return style.read(bare.slice(0, end).trimEnd()) - parseOffset(bare.slice(end));
}

/** Where the offset of a trimmed stamp begins, or the length of the text. A minus is one only after a clock time. */
function offsetStart(text: string): number {
  const last = text.charCodeAt(text.length - 1);
  const isDigit = last >= 48 && last <= 57;
  if (!isDigit)
    return text.search(/\s*(?:Z|UTC|GMT)$/i) === -1 ? text.length : text.search(/\s*(?:Z|UTC|GMT)$/i);
  const plus = text.lastIndexOf('+');
  if (plus > 0) return text.slice(0, plus).search(/\s*(?:UTC|GMT)?$/i);
  const minus = text.lastIndexOf('-');
  if (minus < 9) return text.length; // the date's own
  const clock = text.search(/[T:]/i);
  return clock > 0 && minus > clock ? text.slice(0, minus).search(/\s*(?:UTC|GMT)?$/i) : text.length;
}

/** The styles that read most of a file's stamps, all equally many; and how many that is. */
export interface StampChoice {
  styles: StampStyle[];
  readable: number;
}

/**
 * The styles that fit a column of stamps best. More than one means that the file does not settle it
 * (day-month or month-day, where no day is above 12).
 *
 * in: texts, as they stand in the file
 * out: the best styles, likeliest first; none when no stamp can be read
 */
export function chooseStampStyle(texts: readonly string[]): StampChoice {
  let best: StampChoice = { styles: [], readable: 0 };
  for (const style of STAMP_STYLES) {
    let readable = 0;
    for (const text of texts) if (!Number.isNaN(parseStamp(text, style, 0))) readable++;
    if (readable > best.readable) best = { styles: [style], readable };
    else if (readable === best.readable && readable > 0) best.styles.push(style);
  }
  return best;
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
