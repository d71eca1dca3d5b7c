import { DAY_MS, HOUR_MS } from '../common/time.ts';

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

/**
 * An instant for messages, to the minute, in UTC.
 *
 * in: ms, UTC milliseconds
 * out: text
 * @example utcText(0); // => '1970-01-01 00:00 UTC'
 */
export function utcText(ms: number): string {
  return `${new Date(ms).toISOString().slice(0, 16).replace('T', ' ')} UTC`;
}
