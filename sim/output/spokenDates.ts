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
 * A civil date, or a span of them, in words.
 *
 * in: from and to, 'YYYY-MM-DD' (to is from for one day); withYear, whether years are named
 * out: words such as '18 to 22 December' or '28 December 2024 to 3 January 2025'
 * @example spokenDates('2025-12-18', '2025-12-22'); // => '18 to 22 December'
 */
export function spokenDates(from: string, to = from, withYear = false): string {
  const [first, last] = [parts(from), parts(to)];
  const end = `${last.day} ${last.month}${withYear ? ` ${last.year}` : ''}`;
  if (from === to) return end;
  if (first.month === last.month && first.year === last.year) return `${first.day} to ${end}`;
  const year = withYear && first.year !== last.year ? ` ${first.year}` : '';
  return `${first.day} ${first.month}${year} to ${end}`;
}

function parts(date: string): { day: number; month: string; year: string } {
  const month = MONTH_NAMES[Number(date.slice(5, 7)) - 1];
  if (month === undefined) throw new Error(`not a civil date: ${date}`);
  return { day: Number(date.slice(8, 10)), month, year: date.slice(0, 4) };
}
