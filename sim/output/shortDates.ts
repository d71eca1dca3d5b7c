import { MONTH_NAMES } from './spokenDates.ts';

/**
 * A civil date, or a span of them, in few characters, without the year.
 *
 * in: from and to, 'YYYY-MM-DD'
 * @example shortDates('2025-12-29', '2026-01-03'); // => '29 Dec-3 Jan'
 */
export function shortDates(from: string, to = from): string {
  const [first, last] = [from, to].map((date) => ({
    day: String(Number(date.slice(8, 10))),
    month: MONTH_NAMES[Number(date.slice(5, 7)) - 1]!.slice(0, 3),
  })) as [{ day: string; month: string }, { day: string; month: string }];
  const end = `${last.day} ${last.month}`;
  if (from === to) return end;
  return first.month === last.month ? `${first.day}-${end}` : `${first.day} ${first.month}-${end}`;
}
