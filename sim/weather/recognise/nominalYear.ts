import { DAY_MS } from '../../common/time.ts';

/**
 * A wall-clock time laid on the year 2001, which is no leap year, milliseconds. Month, day and clock stay.
 *
 * in: ms, wall clock as if UTC
 * out: milliseconds
 * NaN when: it is a 29 February
 * @example nominalYear(0); // => 978307200000
 */
export function nominalYear(ms: number): number {
  const date = new Date(ms);
  const year = date.getUTCFullYear();
  const into = ms - Date.UTC(year, 0, 1);
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  const day = Math.floor(into / DAY_MS);
  if (leap && day === 59) return Number.NaN;
  return Date.UTC(2001, 0, 1) + into - (leap && day > 59 ? DAY_MS : 0);
}
