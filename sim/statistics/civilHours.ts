import { DateTime } from 'luxon';
import { HOUR_MS } from '../common/time.ts';

/** The hours of a record that fall on one civil date: from `from` to before `to`. */
export interface CivilDay {
  /** 'YYYY-MM-DD'. */
  date: string;
  from: number;
  to: number;
  /** Civil time less UTC at the first of these hours. */
  offset_min: number;
}

/** A record in UTC cuts a day of the site's zone in two; so few hours of one go with the day beside them. */
const STUB_H = 14;

/**
 * The civil dates of a record with the hours that begin on them, in the order of time. Less than 14 hours of a date at
 * either end of the record are counted with the day beside them, so that a year keeps its number of days.
 *
 * in: start_ms, start of the first hour, UTC milliseconds; count, hours; timeZone, IANA name
 * out: days that together hold every hour once
 * throws: Error where the zone is not known
 */
export function civilHours(start_ms: number, count: number, timeZone: string): CivilDay[] {
  const days: CivilDay[] = [];
  let at = DateTime.fromMillis(start_ms, { zone: timeZone });
  if (!at.isValid) throw new Error(`no time zone ${timeZone}`);
  for (let from = 0; from < count; ) {
    const next = at.startOf('day').plus({ days: 1 });
    const to = Math.min(count, Math.ceil((next.toMillis() - start_ms) / HOUR_MS));
    if (to > from) days.push({ date: at.toISODate(), from, to, offset_min: at.offset });
    from = to;
    at = next;
  }
  const [first, second] = days;
  if (first !== undefined && second !== undefined && first.to - first.from < STUB_H) {
    second.from = first.from;
    days.shift();
  }
  const [last, before] = [days.at(-1), days.at(-2)];
  if (last !== undefined && before !== undefined && last.to - last.from < STUB_H) {
    before.to = last.to;
    days.pop();
  }
  return days;
}
