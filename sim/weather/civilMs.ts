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
