import { DAY_MS, HOUR_MS } from '../common/time.ts';

/** A way of writing a time. New ones are added to STAMP_STYLES. */
export interface StampStyle {
  /** How a report names it. */
  name: string;
  example: string;
  /**
   * Wall clock of the text as if it were UTC, milliseconds; NaN when the text is not of this style or no such
   * time exists. The text comes trimmed and without its offset.
   */
  read: (text: string) => number;
}

const DOT = 46;
const DASH = 45;
const SLASH = 47;
const COLON = 58;

/** A cursor over one text; one is shared by all styles, nothing is allocated per stamp. */
const cursor = {
  text: '',
  at: 0,
  /** Digits the last number took. */
  width: 0,
  start(text: string): void {
    this.text = text;
    this.at = 0;
  },
  /** Next number of at most `most` digits; NaN when there is none. */
  number(most: number): number {
    let value = 0;
    let width = 0;
    while (width < most) {
      const digit = this.text.charCodeAt(this.at) - 48;
      if (!(digit >= 0 && digit <= 9)) break;
      value = value * 10 + digit;
      this.at++;
      width++;
    }
    this.width = width;
    return width === 0 ? Number.NaN : value;
  },
  code(): number {
    return this.text.charCodeAt(this.at);
  },
  take(code: number): boolean {
    if (this.text.charCodeAt(this.at) !== code) return false;
    this.at++;
    return true;
  },
  /** Passes over the sign between two numbers (or `signs` of them) and blanks behind it. */
  joint(signs = 1): void {
    this.at += signs;
    while (this.take(32));
  },
  ended(): boolean {
    return this.at === this.text.length;
  },
};

/** Reads the rest of the text as a clock time ('', ' 05', 'T05:30', ' 05:30:15.5', 'T0530'). */
function withClock(year: number, month: number, day: number): number {
  if (cursor.ended()) return civilMs(year, month, day, 0, 0, 0);
  const before = cursor.at;
  const joint = cursor.code();
  if (joint === 84 || joint === 116 || joint === COLON || joint === DASH || joint === 95) {
    cursor.at++; // T, t, colon, dash or underscore
  } else {
    if (cursor.take(44)) cursor.at = before + 1; // comma
    while (cursor.take(32)); // blanks
  }
  if (cursor.at === before) return Number.NaN;
  let hour = cursor.number(6);
  let minute = 0;
  let second = 0;
  if (cursor.width === 6) {
    second = hour % 100;
    minute = Math.floor(hour / 100) % 100;
    hour = Math.floor(hour / 10_000);
  } else if (cursor.width === 4) {
    minute = hour % 100;
    hour = Math.floor(hour / 100);
  } else if (cursor.width > 2) {
    return Number.NaN;
  } else if (cursor.code() === COLON || cursor.code() === DOT) {
    const joint2 = cursor.code();
    cursor.at++;
    minute = cursor.number(2);
    if (cursor.width !== 2) return Number.NaN;
    if (cursor.take(joint2)) {
      second = cursor.number(2);
      if (cursor.width !== 2) return Number.NaN;
      if (cursor.take(DOT) || cursor.take(44)) {
        const fraction = cursor.number(9);
        second += fraction / 10 ** cursor.width;
      }
    }
  }
  if (!cursor.ended()) {
    while (cursor.take(32)); // blanks
    // a or A, p or P, and the M after it: the twelve-hour clock
    const half = cursor.code() | 32;
    if ((half !== 97 && half !== 112) || hour < 1 || hour > 12) return Number.NaN;
    cursor.at++;
    cursor.take(DOT);
    if (!cursor.take(77)) cursor.take(109); // M, m; some write a single letter
    cursor.take(DOT);
    hour = (hour % 12) + (half === 112 ? 12 : 0);
  }
  return cursor.ended() ? civilMs(year, month, day, hour, minute, second) : Number.NaN;
}

function readYearFirst(text: string): number {
  cursor.start(text);
  const year = cursor.number(4);
  if (cursor.width !== 4) return Number.NaN;
  const joint = cursor.code();
  if (joint !== DASH && joint !== SLASH && joint !== DOT) return Number.NaN;
  cursor.joint();
  const month = cursor.number(2);
  if (!cursor.take(joint)) return Number.NaN;
  cursor.joint(0);
  const day = cursor.number(2);
  // Some write a point behind the day, too.
  if (joint === DOT) cursor.take(DOT);
  return withClock(year, month, day);
}

/** Two numbers and a year of so many digits; the caller says which of the two is the day. */
function readYearLast(text: string, dayFirst: boolean, digits: 2 | 4 = 4): number {
  cursor.start(text);
  const first = cursor.number(2);
  const joint = cursor.code();
  if (joint !== DASH && joint !== SLASH && !(joint === DOT && dayFirst)) return Number.NaN;
  cursor.joint();
  const second = cursor.number(2);
  if (!cursor.take(joint)) return Number.NaN;
  cursor.joint(0);
  const written = cursor.number(4);
  if (cursor.width !== digits) return Number.NaN;
  const year = digits === 2 ? centuryOf(written) : written;
  if (joint === DOT) cursor.take(DOT);
  return dayFirst ? withClock(year, second, first) : withClock(year, first, second);
}

/** Two digits and the year they stand for: 1950 to 2049. */
function centuryOf(year: number): number {
  return year < 50 ? 2000 + year : 1900 + year;
}

function readShortYearFirst(text: string): number {
  cursor.start(text);
  const year = cursor.number(4);
  if (cursor.width !== 2) return Number.NaN;
  const joint = cursor.code();
  if (joint !== DASH && joint !== SLASH && joint !== DOT) return Number.NaN;
  cursor.at++;
  const month = cursor.number(2);
  if (!cursor.take(joint)) return Number.NaN;
  return withClock(centuryOf(year), month, cursor.number(2));
}

/** Month and day without a year, on 2001. */
function readMonthDay(text: string): number {
  cursor.start(text);
  const month = cursor.number(2);
  const joint = cursor.code();
  if (joint !== DASH && joint !== SLASH) return Number.NaN;
  cursor.joint();
  return withClock(2001, month, cursor.number(2));
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

/** A day, the name of a month and a year ('05-Dec-2021 13:00', '5 December 2021'). */
function readMonthName(text: string): number {
  const parts = /^(\d{1,2})[-./ ]([^\d\s./-]{3,12})\.?[-./ ](\d{4}|\d{2})(.*)$/.exec(text);
  if (parts === null) return Number.NaN;
  const name = parts[2]!.toLowerCase();
  const month = MONTHS.findIndex((pattern) => pattern.test(name)) + 1;
  if (month === 0) return Number.NaN;
  const year = parts[3]!.length === 2 ? centuryOf(Number(parts[3])) : Number(parts[3]);
  cursor.start(parts[4]!);
  return withClock(year, month, Number(parts[1]));
}

/** The name of a month, a day and a year ('Dec 5, 2021 1:00 PM'). */
function readMonthNameFirst(text: string): number {
  const parts = /^([^\d\s./-]{3,12})\.? (\d{1,2}),? (\d{4}),?(.*)$/.exec(text);
  if (parts === null) return Number.NaN;
  const name = parts[1]!.toLowerCase();
  const month = MONTHS.findIndex((pattern) => pattern.test(name)) + 1;
  if (month === 0) return Number.NaN;
  cursor.start(parts[4]!);
  return withClock(Number(parts[3]), month, Number(parts[2]));
}

/** The start of an interval 'from/to', both in the style with the year first. */
function readInterval(text: string): number {
  const slash = text.indexOf('/', 10);
  if (slash < 0) return Number.NaN;
  if (
    Number.isNaN(
      readYearFirst(
        text
          .slice(slash + 1)
          .trim()
          .replace(/Z$/, ''),
      ),
    )
  )
    return Number.NaN;
  return readYearFirst(text.slice(0, slash).trim().replace(/Z$/, ''));
}

function readPacked(text: string): number {
  cursor.start(text);
  const date = cursor.number(8);
  if (cursor.width !== 8) return Number.NaN;
  const year = Math.floor(date / 10_000);
  const month = Math.floor(date / 100) % 100;
  const day = date % 100;
  const next = cursor.code() - 48;
  if (!(next >= 0 && next <= 9)) return withClock(year, month, day);
  const digits = text.length - cursor.at;
  if (digits === 5 && text.charCodeAt(10) === COLON) {
    const hours = cursor.number(2);
    cursor.at++;
    const minutes = cursor.number(2);
    return cursor.ended() ? civilMs(year, month, day, hours, minutes, 0) : Number.NaN;
  }
  if (digits !== 2 && digits !== 4 && digits !== 6) return Number.NaN;
  const hour = cursor.number(2);
  const minute = digits > 2 ? cursor.number(2) : 0;
  const second = digits > 4 ? cursor.number(2) : 0;
  return cursor.ended() ? civilMs(year, month, day, hour, minute, second) : Number.NaN;
}

/** Every style that can be read, the likeliest first. A text may fit several; chooseStampStyle settles it. */
export const STAMP_STYLES: readonly StampStyle[] = [
  { name: 'year-month-day', example: '2021-12-31 23:00', read: readYearFirst },
  { name: 'day-month-year', example: '31.12.2021 23:00', read: (text) => readYearLast(text, true) },
  { name: 'month-day-year', example: '12/31/2021 23:00', read: (text) => readYearLast(text, false) },
  { name: 'packed digits', example: '2021123123', read: readPacked },
];

/** More ways of writing a time, for files that are recognised: there the order of the rows settles which is meant. */
export const MORE_STAMP_STYLES: readonly StampStyle[] = [
  ...STAMP_STYLES,
  { name: 'day-month name-year', example: '31-Dec-2021 23:00', read: readMonthName },
  { name: 'month name-day-year', example: 'Dec 31, 2021 23:00', read: readMonthNameFirst },
  { name: 'interval from/to', example: '2021-12-31T23:00/2022-01-01T00:00', read: readInterval },
  {
    name: 'day-month-year of two digits',
    example: '31.12.21 23:00',
    read: (text) => readYearLast(text, true, 2),
  },
  {
    name: 'month-day-year of two digits',
    example: '12/31/21 23:00',
    read: (text) => readYearLast(text, false, 2),
  },
  { name: 'year of two digits-month-day', example: '21-12-31 23:00', read: readShortYearFirst },
  { name: 'month-day without a year', example: '12/31 23:00', read: readMonthDay },
];

const DAYS_OF_MONTH = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/**
 * Milliseconds since 1970-01-01 00:00 of a date and clock time, the clock taken as UTC. Own arithmetic, for
 * reading a million stamps a second; 24:00 is the next day's 00:00.
 *
 * in: year 1 to 9999, month 1 to 12, day of the month, hour 0 to 24, minute 0 to 59, second 0 to below 60
 * out: milliseconds
 * NaN when: the calendar or the clock has no such time (30 February, 24:01)
 * valid: Gregorian calendar
 * source: ISO8601
 * @example civilMs(1970, 1, 1, 24, 0, 0); // => 86400000
 */
export function civilMs(
  year: number,
  month: number,
  day: number,
  hour: number,
  minute: number,
  second: number,
): number {
  if (year < 1 || month < 1 || month > 12 || day < 1) return Number.NaN;
  const leap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  if (day > DAYS_OF_MONTH[month - 1]! && !(leap && month === 2 && day === 29)) return Number.NaN;
  if (hour < 0 || minute < 0 || second < 0 || minute > 59 || second >= 60) return Number.NaN;
  if (hour > 23 && !(hour === 24 && minute === 0 && second === 0)) return Number.NaN;
  // Years counted from March, so that the leap day is the last of its year.
  const marchYear = month > 2 ? year : year - 1;
  const marchMonth = (month + 9) % 12;
  const dayOfYear = Math.floor((153 * marchMonth + 2) / 5) + day - 1;
  const days =
    365 * marchYear +
    Math.floor(marchYear / 4) -
    Math.floor(marchYear / 100) +
    Math.floor(marchYear / 400) +
    dayOfYear -
    719_468;
  return days * DAY_MS + hour * HOUR_MS + minute * 60_000 + Math.round(second * 1000);
}

const OFFSET = /^\s*(?:UTC|GMT)?\s*(?:([+-])(\d{1,2})(?::?([0-5]\d))?)?$/i;

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
