export const HOUR_MS = 3_600_000;
export const DAY_MS = 24 * HOUR_MS;

/**
 * Day of the year in UTC with its fraction: 1 at the first instant of 1 January.
 *
 * in: ms, UTC milliseconds
 * out: 1 to below 367, days
 * @example dayOfYear(43200000); // => 1.5
 */
export function dayOfYear(ms: number): number {
  return 1 + (ms - Date.UTC(new Date(ms).getUTCFullYear(), 0, 1)) / DAY_MS;
}

/** The same instant of the calendar some years on, UTC; of a 29 February, 1 March. */
export function anniversary(ms: number, years: number): number {
  const date = new Date(ms);
  return date.setUTCFullYear(date.getUTCFullYear() + years);
}

/**
 * How many whole years some hours are: from an instant to the same instant of the calendar, 8760 hours a year, 8784
 * with a 29 February in it.
 *
 * in: start_ms, UTC milliseconds; count, hours
 * out: 0 where they are none, or not whole ones
 */
export function wholeYearsIn(start_ms: number, count: number): number {
  const years = Math.round(count / 8766);
  return (anniversary(start_ms, years) - start_ms) / HOUR_MS === count ? years : 0;
}

/** Names of the months, January first. */
export const MONTH_NAMES = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const;

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

/**
 * Time of day, UTC.
 *
 * in: ms, UTC milliseconds, also before 1970
 * out: milliseconds since the midnight before
 * @example sinceMidnight(-3600000); // => 82800000
 */
export function sinceMidnight(ms: number): number {
  return ((ms % DAY_MS) + DAY_MS) % DAY_MS;
}

/** A number of hours with its word: '1 hour', '2 hours'. */
export function hoursText(hours: number): string {
  return `${hours} ${hours === 1 ? 'hour' : 'hours'}`;
}
