import { powerOfTen } from '../common/elementary/power.ts';
import { DAY_MS, HOUR_MS } from '../common/time.ts';

/** A way of writing a time. */
export interface StampStyle {
  /** How a report names it. */
  name: string;
  example: string;
  /**
   * Wall clock of a trimmed text as if it were UTC, milliseconds; NaN when the text is not of this style or no such
   * time exists. What the text says of its offset is then told by `statedOffset`.
   */
  read: (text: string) => number;
}

/**
 * Milliseconds since 1970-01-01 of the start of a date.
 *
 * in: year 100 to 9999, month 1 to 12, day of the month
 * out: milliseconds
 * NaN when: the calendar has no such day (30 February)
 * valid: Gregorian calendar
 * source: ISO8601
 * @example dateMs(1970, 1, 2); // => 86400000
 */
export function dateMs(year: number, month: number, day: number): number {
  if (!(year >= 100 && month >= 1 && month <= 12 && day >= 1)) return Number.NaN;
  const ms = Date.UTC(year, month - 1, day);
  return day <= 28 || new Date(ms).getUTCDate() === day ? ms : Number.NaN;
}

/**
 * Milliseconds since midnight of a clock time; 24:00 is the end of the day.
 *
 * in: hour 0 to 24, with or without a fraction; minute 0 to 59; second 0 to below 60
 * out: milliseconds
 * NaN when: no clock shows it (24:01)
 * source: ISO8601
 * @example clockMs(24, 0, 0); // => 86400000
 */
export function clockMs(hour: number, minute: number, second: number): number {
  if (!(hour >= 0 && minute >= 0 && minute < 60 && second >= 0 && second < 60)) return Number.NaN;
  const ms = Math.round(hour * HOUR_MS + minute * 60_000 + second * 1000);
  return ms > DAY_MS ? Number.NaN : ms;
}

const OFFSET = /^\s*(?:UTC?|GMT)?\s*(?:([+-])(\d{1,2})(?::?([0-5]\d))?)?$/i;

/**
 * What a clock is ahead of UTC, milliseconds, from 'UTC', 'Z', '+01:00', '-0330', 'UTC+1'. Fixed offsets only.
 *
 * in: text
 * out: milliseconds, positive east
 * NaN when: the text is no fixed offset, or beyond 15 hours
 * source: ISO8601
 * @example parseOffset('UTC+1'); // => 3600000
 */
export function parseOffset(text: string): number {
  const bare = text.trim();
  if (/^z$/i.test(bare)) return 0;
  const parts = bare === '' ? null : OFFSET.exec(bare);
  if (parts === null) return Number.NaN;
  const minutes = Number(parts[2] ?? 0) * 60 + Number(parts[3] ?? 0);
  if (minutes > 15 * 60) return Number.NaN;
  return (parts[1] === '-' ? -minutes : minutes) * 60_000 + 0;
}

const BLANK = 32;
const COMMA = 44;
const DASH = 45;
const DOT = 46;
const SLASH = 47;
const COLON = 58;
const T = 84;
const UNDERSCORE = 95;
const H = 104;
/** A cursor over one text; one is shared by all styles, nothing is allocated per stamp. */
const cursor = {
  text: '',
  at: 0,
  /** Digits the last number took. */
  width: 0,
  /** Offset the text stated, milliseconds; NaN where it stated none. */
  offset_ms: Number.NaN,
  start(text: string, at: number): void {
    this.text = text;
    this.at = at;
    this.offset_ms = Number.NaN;
  },
  /** Next number of at most `most` digits; NaN when there is none. */
  number(most: number): number {
    const { text, at } = this;
    let value = 0;
    let width = 0;
    for (; width < most; width++) {
      const digit = text.charCodeAt(at + width) - 48;
      if (!(digit >= 0 && digit <= 9)) break;
      value = value * 10 + digit;
    }
    this.at = at + width;
    this.width = width;
    return width === 0 ? Number.NaN : value;
  },
  code(): number {
    return this.text.charCodeAt(this.at);
  },
  atDigit(): boolean {
    const digit = this.code() - 48;
    return digit >= 0 && digit <= 9;
  },
  take(code: number): boolean {
    if (this.text.charCodeAt(this.at) !== code) return false;
    this.at++;
    return true;
  },
  blanks(): void {
    while (this.take(BLANK));
  },
  /** A clock time ('5', '05:30', '5.30', '5h30', '05:30:15.5', '0530', '053015', '5:30 PM'), milliseconds since midnight. */
  clock(): number {
    const digits = this.number(6);
    const { width } = this;
    let hour = digits;
    let minute = 0;
    let second = 0;
    if (width > 2) {
      if (width > 4) second = digits % 100;
      const hhmm = width > 4 ? Math.floor(digits / 100) : digits;
      minute = hhmm % 100;
      hour = Math.floor(hhmm / 100);
    } else if (this.take(COLON) || this.take(DOT) || this.take(H)) {
      minute = this.number(2);
      if (this.width !== 2) return Number.NaN;
      if (this.take(COLON) || this.take(DOT)) {
        second = this.number(2);
        if (this.width !== 2) return Number.NaN;
        if (this.take(DOT) || this.take(COMMA)) second += this.number(9) / powerOfTen(this.width);
      }
    }
    return clockMs(this.halfOfDay(hour), minute, second);
  },
  /** An hour from 0, where AM or PM follows in any spelling ('a', 'p.m.'). */
  halfOfDay(hour: number): number {
    if (this.at === this.text.length) return hour;
    this.blanks();
    const half = this.code() | 32;
    if (half !== 97 && half !== 112) return hour;
    this.at++;
    this.take(DOT);
    if (!this.take(77)) this.take(109); // M, m
    this.take(DOT);
    return hour < 1 || hour > 12 ? Number.NaN : (hour % 12) + (half === 112 ? 12 : 0);
  },
  /** What is left is nothing, or the offset of the clock; true so. */
  ended(): boolean {
    const left = this.text.length - this.at;
    if (left === 0) return true;
    this.offset_ms = left === 1 && this.code() === 90 ? 0 : parseOffset(this.text.slice(this.at));
    return !Number.isNaN(this.offset_ms);
  },
};

/**
 * What the text that was read last said of its own offset.
 *
 * out: milliseconds ahead of UTC; NaN where it said nothing
 */
export function statedOffset(): number {
  return cursor.offset_ms;
}

/**
 * A text that holds a clock time alone, with or without its offset: '5:30', '05:30:15', '24:00', '5.30', '0530', '1:00 PM'.
 *
 * in: text, trimmed
 * out: milliseconds since midnight
 * NaN when: the text is no such time
 */
export function readClock(text: string): number {
  cursor.start(text, 0);
  const clock_ms = cursor.clock();
  return cursor.ended() ? clock_ms : Number.NaN;
}

/** A date and the rest of its text, a clock time and an offset or either of them. */
function withClock(date_ms: number): number {
  const before = cursor.at;
  const joint = cursor.code();
  if (joint === T || joint === COLON || joint === DASH || joint === UNDERSCORE || joint === (T | 32))
    cursor.at++;
  else {
    if (joint === COMMA) cursor.at++;
    cursor.blanks();
  }
  const clock_ms = cursor.at > before && cursor.atDigit() ? cursor.clock() : 0;
  return cursor.ended() ? date_ms + clock_ms : Number.NaN;
}

/** Two digits and the year they stand for: 1950 to 2049. */
function centuryOf(year: number): number {
  return year < 50 ? 2000 + year : 1900 + year;
}

/** Where a stamp begins: the name of a day of the week before it says nothing new. */
function beginOf(text: string): number {
  return text.charCodeAt(0) > 64 ? text.indexOf(' ') + 1 : 0;
}

/** What nearly all rows end in, 'hh:mm' or 'hh:mm:ss', read quickly; NaN where the text ends otherwise. */
function plainClock(text: string, at: number): number {
  const length = text.length - at;
  const seconds = length === 8 && text.charCodeAt(at + 5) === COLON;
  if ((length !== 5 && !seconds) || text.charCodeAt(at + 2) !== COLON) return Number.NaN;
  const hour = twoDigits(text, at);
  const minute = twoDigits(text, at + 3);
  const second = seconds ? twoDigits(text, at + 6) : 0;
  return hour < 24 && minute < 60 && second < 60
    ? hour * HOUR_MS + minute * 60_000 + second * 1000
    : Number.NaN;
}

function twoDigits(text: string, at: number): number {
  const tens = text.charCodeAt(at) - 48;
  const ones = text.charCodeAt(at + 1) - 48;
  return tens >= 0 && tens <= 9 && ones >= 0 && ones <= 9 ? tens * 10 + ones : Number.NaN;
}

/** Dates of three numbers with one sign between them; the year has so many digits. */
function numbersStyle(order: 'ymd' | 'dmy' | 'mdy', digits: 2 | 4): StampStyle['read'] {
  const yearFirst = order === 'ymd';
  // '16. 8. 21' has its year last.
  const isSpaced = !yearFirst || digits === 4;
  const dateOf = (): number => {
    const first = cursor.number(yearFirst ? 4 : 2);
    const width = cursor.width;
    const joint = cursor.code();
    if (joint !== DASH && joint !== SLASH && !(joint === DOT && order !== 'mdy')) return Number.NaN;
    cursor.at++;
    if (isSpaced) cursor.blanks();
    const second = cursor.number(2);
    if (!cursor.take(joint)) return Number.NaN;
    if (isSpaced) cursor.blanks();
    const third = cursor.number(yearFirst ? 2 : 4);
    if ((yearFirst ? width : cursor.width) !== digits) return Number.NaN;
    // Some write a point behind the last number, too.
    if (joint === DOT) cursor.take(DOT);
    const written = yearFirst ? first : third;
    const year = digits === 2 ? centuryOf(written) : written;
    if (yearFirst) return dateMs(year, second, third);
    return order === 'dmy' ? dateMs(year, second, first) : dateMs(year, first, second);
  };
  // Most rows are of the date of the row before: its text, and the sign behind it, are kept.
  let known = '\0';
  let known_ms = Number.NaN;
  return (text) => {
    if (text.startsWith(known)) {
      cursor.start(text, known.length - 1);
      const clock_ms = plainClock(text, known.length);
      return Number.isNaN(clock_ms) ? withClock(known_ms) : known_ms + clock_ms;
    }
    cursor.start(text, beginOf(text));
    const date_ms = dateOf();
    if (Number.isNaN(date_ms)) return Number.NaN;
    if (cursor.code() === BLANK || cursor.code() === T) {
      known = text.slice(0, cursor.at + 1);
      known_ms = date_ms;
    }
    return withClock(date_ms);
  };
}

/** Month and day without a year, on 2001. */
function readMonthDay(text: string): number {
  cursor.start(text, beginOf(text));
  const month = cursor.number(2);
  const joint = cursor.code();
  if (joint !== DASH && joint !== SLASH) return Number.NaN;
  cursor.at++;
  cursor.blanks();
  return withClock(dateMs(2001, month, cursor.number(2)));
}

/** First letters of the months in English and, where they differ, in the other languages of weather services. */
const MONTHS: readonly RegExp[] = [
  /^(jan|ene|gen|sty|led)/,
  /^(feb|fev|f\u00e9v|lut|\u00fano|uno)/,
  /^(mar|maa|m\u00e4r|mrt|mrz|b\u0159e|bre)/,
  /^(apr|avr|abr|kwi|dub)/,
  /^(may|mai|mei|maj|mag|kv\u011b|kve)/,
  /^(jun|juin|giu|cze|\u010dvn|cvn)/,
  /^(jul|juil|lug|lip|\u010dvc|cvc)/,
  /^(aug|ao\u00fb|aou|ago|sie|srp)/,
  /^(sep|set|wrz|z\u00e1\u0159|zar)/,
  /^(oct|okt|ott|out|pa\u017a|paz|\u0159\u00edj|rij)/,
  /^(nov|lis)/,
  /^(dec|dez|d\u00e9c|dic|des|gru|pro)/,
];

/** Dates with the name of their month; the pattern has day and name, or name and day, then the year and the rest. */
function namedStyle(pattern: RegExp, dayAt: 1 | 2): StampStyle['read'] {
  return (text) => {
    const parts = pattern.exec(text);
    if (parts === null) return Number.NaN;
    const name = parts[3 - dayAt]!.toLowerCase();
    const month = MONTHS.findIndex((start) => start.test(name)) + 1;
    const year = Number(parts[3]);
    cursor.start(text, text.length - parts[4]!.length);
    return withClock(dateMs(parts[3]!.length === 2 ? centuryOf(year) : year, month, Number(parts[dayAt])));
  };
}

const readYearFirst = numbersStyle('ymd', 4);

/** The start of an interval 'from/to', both in the style with the year first. */
function readInterval(text: string): number {
  const slash = text.indexOf('/', 10);
  if (slash < 0) return Number.NaN;
  cursor.start(text, slash + 1);
  cursor.blanks();
  cursor.number(4);
  return cursor.width === 4 ? readYearFirst(text.slice(0, slash).trim()) : Number.NaN;
}

function readPacked(text: string): number {
  cursor.start(text, beginOf(text));
  const date = cursor.number(8);
  if (cursor.width !== 8) return Number.NaN;
  const date_ms = dateMs(Math.floor(date / 10_000), Math.floor(date / 100) % 100, date % 100);
  if (!cursor.atDigit()) return withClock(date_ms);
  const clock_ms = cursor.clock();
  return cursor.width % 2 === 0 && cursor.ended() ? date_ms + clock_ms : Number.NaN;
}

/** Every style that can be read, the likeliest first. A text may fit several; the order of the rows, or the user, settles it. */
export const STAMP_STYLES: readonly StampStyle[] = [
  { name: 'year-month-day', example: '2021-12-31 23:00', read: readYearFirst },
  { name: 'day-month-year', example: '31.12.2021 23:00', read: numbersStyle('dmy', 4) },
  { name: 'month-day-year', example: '12/31/2021 23:00', read: numbersStyle('mdy', 4) },
  { name: 'packed digits', example: '2021123123', read: readPacked },
  {
    name: 'day-month name-year',
    example: '31-Dec-2021 23:00',
    read: namedStyle(/^(?:[^\d\s]+ )?(\d{1,2})[-./ ]([^\d\s./-]{3,12})\.?[-./ ](\d{4}|\d{2})(.*)$/, 1),
  },
  {
    name: 'month name-day-year',
    example: 'Dec 31, 2021 23:00',
    read: namedStyle(/^([^\d\s./-]{3,12})\.? (\d{1,2}),? (\d{4}),?(.*)$/, 2),
  },
  { name: 'interval from/to', example: '2021-12-31T23:00/2022-01-01T00:00', read: readInterval },
  { name: 'day-month-year of two digits', example: '31.12.21 23:00', read: numbersStyle('dmy', 2) },
  { name: 'month-day-year of two digits', example: '12/31/21 23:00', read: numbersStyle('mdy', 2) },
  { name: 'year of two digits-month-day', example: '21-12-31 23:00', read: numbersStyle('ymd', 2) },
  { name: 'month-day without a year', example: '12/31 23:00', read: readMonthDay },
];
