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

/** Letters of standard times, minutes ahead of UTC; those that mean one zone, or by far mostly one. Common practice, no source. */
export const STANDARD_LETTERS: Readonly<Record<string, number>> = {
  WET: 0,
  WEZ: 0,
  CET: 60,
  MEZ: 60,
  MET: 60,
  EET: 120,
  OEZ: 120,
  EST: -300,
  CST: -360,
  MST: -420,
  PST: -480,
  AKST: -540,
  HST: -600,
  JST: 540,
  AEST: 600,
};

/** Of summer times, which only a stamp itself says of its hour. */
const SUMMER_LETTERS: Readonly<Record<string, number>> = {
  WEST: 60,
  WESZ: 60,
  CEST: 120,
  MESZ: 120,
  MEST: 120,
  EEST: 180,
  OESZ: 180,
  EDT: -240,
  CDT: -300,
  MDT: -360,
  PDT: -420,
  AKDT: -480,
  AEDT: 660,
};

const LETTERS = { ...STANDARD_LETTERS, ...SUMMER_LETTERS };
/** Pattern of the letters that a time may have behind it. */
export const ZONE_LETTERS = Object.keys(LETTERS).join('|');

/** What stands behind a date: a sign or a blank, a time of day ('5', '05:30', '5.30', '5h30', '053015', '5:30 PM'), an offset. */
const BEHIND_DATE =
  /^(?:[T:_-]|,? *)(?:(\d{1,2})(?:[:.h](\d\d)(?:[:.](\d\d(?:[.,]\d+)?))?|(\d\d)(\d\d)?)?(?!\d)(?: *([ap])\.?m?\.?(?![a-z]))?)?(.*)$/i;

interface Clock {
  /** Since midnight; NaN where no clock shows it. */
  ms: number;
  /** Offset that stands behind it; NaN where none does. */
  offset_ms: number;
}

function clockOf(text: string): Clock {
  // A whole hour may bear its name: '5h', '5 Uhr'.
  const bare = text.replace(/(?<=^\D{0,2}\d{1,2}) ?(?:h|uhr)$/i, '');
  const [, hour = '0', ...parts] = BEHIND_DATE.exec(bare)!;
  const [minute = '0', second = '0', packedMinute = minute, packedSecond = second, half, rest] = parts;
  const letters_min = LETTERS[rest!.trim().toUpperCase()];
  const offset_ms =
    letters_min !== undefined ? letters_min * 60_000 : rest === '' ? Number.NaN : parseOffset(rest!);
  const isWrong =
    (half !== undefined && !(+hour >= 1 && +hour <= 12)) || (rest !== '' && !(offset_ms <= DAY_MS));
  const from0 = half === undefined ? +hour : (+hour % 12) + (half.toLowerCase() === 'p' ? 12 : 0);
  const ms = clockMs(isWrong ? Number.NaN : from0, +packedMinute, Number(packedSecond.replace(',', '.')));
  return { ms, offset_ms };
}

/** Nearly all rows have a time of day that stood in rows before: so many of them are kept. */
const CLOCKS_KEPT = 4000;
const clocks = new Map<string, Clock>();
/** What the text that was read last said of its own offset, milliseconds. */
let stated_ms = Number.NaN;

/** Milliseconds since midnight of what stands behind a date, which may be nothing. */
function readBehindDate(text: string): number {
  let clock = clocks.get(text);
  if (clock === undefined) {
    clock = clockOf(text);
    if (clocks.size >= CLOCKS_KEPT) clocks.clear();
    clocks.set(text, clock);
  }
  stated_ms = clock.offset_ms;
  return clock.ms;
}

/**
 * What the text that was read last said of its own offset.
 *
 * out: milliseconds ahead of UTC; NaN where it said nothing
 */
export function statedOffset(): number {
  return stated_ms;
}

/**
 * A text that holds a clock time alone, with or without its offset: '5:30', '05:30:15', '24:00', '5.30', '0530', '1:00 PM'.
 *
 * in: text, trimmed
 * out: milliseconds since midnight
 * NaN when: the text is no such time
 */
export function readClock(text: string): number {
  return /^\d/.test(text) ? readBehindDate(text) : Number.NaN;
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

/** Parts of a date as patterns. The name of a day of the week before it says nothing new. */
const WEEKDAY = String.raw`^(?:[^\d\s]+ )?`;
const YEAR = String.raw`(?<year>\d{4})(?!\d)`;
/** Of two digits, 1950 to 2049. */
const SHORT_YEAR = String.raw`(?<year>\d\d)(?!\d)`;
const ANY_YEAR = String.raw`(?<year>\d{4}|\d\d)(?!\d)`;
const MONTH = String.raw`(?<month>\d{1,2})`;
const DAY = String.raw`(?<day>\d{1,2})(?!\d)`;
const NAME = String.raw`(?<name>[^\d\s./-]{3,12})\.?`;

/** Pairs of digits may follow without a sign: the time of day. */
const PACKED = String.raw`${WEEKDAY}(?<year>\d{4})(?<month>\d\d)(?<day>\d\d)(?=(?:\d\d){0,3}(?!\d))`;

/** Three numbers with one sign between them, a point behind the last, too. '16. 8. 21' has its year last. */
function numbers(signs: string, first: string, second: string, third: string): string {
  const sign = String.raw`\k<sign>${first === SHORT_YEAR ? '' : ' *'}`;
  return String.raw`${WEEKDAY}${first}(?=(?<sign>[${signs}]))${sign}${second}${sign}${third}\.?(?!\d)`;
}

/** Reads a date of a pattern, 2001 where it has no year, and what stands behind it. */
function dated(pattern: string): StampStyle['read'] {
  const written = new RegExp(pattern);
  // Most rows are of the date of the row before: its text, and the sign behind it, are kept.
  let known = '\0';
  let known_ms = Number.NaN;
  return (text) => {
    if (text.startsWith(known)) return known_ms + readBehindDate(text.slice(known.length - 1));
    stated_ms = Number.NaN;
    const match = written.exec(text);
    if (match === null) return Number.NaN;
    const { year = '2001', month, name = '', day } = match.groups!;
    const century = year.length === 4 ? 0 : +year < 50 ? 2000 : 1900;
    const named = MONTHS.findIndex((start) => start.test(name.toLowerCase())) + 1;
    const date_ms = dateMs(century + +year, month === undefined ? named : +month, +day!);
    const [{ length }] = match;
    if (/[ T]/.test(text[length] ?? '')) {
      known = text.slice(0, length + 1);
      known_ms = date_ms;
    }
    return date_ms + readBehindDate(text.slice(length));
  };
}

const readYearFirst = dated(numbers('-/.', YEAR, MONTH, DAY));

/** The start of an interval 'from/to', both in the style with the year first. */
function readInterval(text: string): number {
  const from = /^(.{10,}?) *\/ *\d{4}/.exec(text)?.[1];
  return from === undefined ? Number.NaN : readYearFirst(from);
}

const style = (name: string, example: string, read: StampStyle['read']): StampStyle => ({
  name,
  example,
  read,
});

/** Every style that can be read, the likeliest first. A text may fit several; the order of the rows, or the user, settles it. */
export const STAMP_STYLES: readonly StampStyle[] = [
  style('year-month-day', '2021-12-31 23:00', readYearFirst),
  style('day-month-year', '31.12.2021 23:00', dated(numbers('-/.', DAY, MONTH, YEAR))),
  style('month-day-year', '12/31/2021 23:00', dated(numbers('-/', MONTH, DAY, YEAR))),
  style('packed digits', '2021123123', dated(PACKED)),
  style(
    'day-month name-year',
    '31-Dec-2021 23:00',
    dated(`${WEEKDAY}${DAY}(?:\\. |[-./ ])${NAME}[-./ ]${ANY_YEAR}`),
  ),
  style('month name-day-year', 'Dec 31, 2021 23:00', dated(`^${NAME} ${DAY},? ${YEAR}`)),
  style('year-month name-day', '2021-Dec-31 23:00', dated(`${WEEKDAY}${YEAR}[-./ ]${NAME}[-./ ]${DAY}`)),
  style('interval from/to', '2021-12-31T23:00/2022-01-01T00:00', readInterval),
  style('day-month-year of two digits', '31.12.21 23:00', dated(numbers('-/.', DAY, MONTH, SHORT_YEAR))),
  style('month-day-year of two digits', '12/31/21 23:00', dated(numbers('-/', MONTH, DAY, SHORT_YEAR))),
  style('year of two digits-month-day', '21-12-31 23:00', dated(numbers('-/.', SHORT_YEAR, MONTH, DAY))),
  style('month-day without a year', '12/31 23:00', dated(`${WEEKDAY}${MONTH}[-/] *${DAY}`)),
];
