import { DateTime, IANAZone } from 'luxon';
import { DAY_MS } from './time.ts';

/** What luxon said of each zone before: the offset at the start of a day in UTC. */
const remembered = new Map<string, Map<number, number>>();

/**
 * A reader of civil time: how far a zone is ahead of UTC, minutes. It asks luxon once a day, and instant by instant
 * only on days on which the clocks change.
 *
 * in: timeZone, IANA name; then ms, UTC milliseconds
 * out: offset; NaN for NaN
 * throws: Error where the zone is not known
 */
export function civilOffset(timeZone: string): (ms: number) => number {
  const zone = IANAZone.create(timeZone);
  if (!zone.isValid) throw new Error(`no time zone ${timeZone}`);
  const known = remembered.get(timeZone) ?? new Map<number, number>();
  remembered.set(timeZone, known);
  const atStartOf = (day: number): number => {
    let offset_min = known.get(day);
    if (offset_min === undefined) {
      offset_min = zone.offset(day * DAY_MS);
      known.set(day, offset_min);
    }
    return offset_min;
  };
  return (ms) => {
    if (Number.isNaN(ms)) return Number.NaN;
    const day = Math.floor(ms / DAY_MS);
    const offset_min = atStartOf(day);
    return offset_min === atStartOf(day + 1) ? offset_min : zone.offset(ms);
  };
}

/**
 * A reader of civil midnights: the first instant of a date, UTC milliseconds. It asks luxon itself only about dates
 * near which the clocks change.
 *
 * in: timeZone, IANA name; then date, 'YYYY-MM-DD'
 * throws: Error where the zone is not known
 * @example civilMidnight('Europe/Berlin')('1970-01-02'); // => 82800000
 */
export function civilMidnight(timeZone: string): (date: string) => number {
  const offset = civilOffset(timeZone);
  return (date) => {
    const asUtc_ms = Date.parse(date);
    const before_min = offset(asUtc_ms - DAY_MS);
    const changes = before_min !== offset(asUtc_ms + DAY_MS);
    return changes
      ? DateTime.fromISO(date, { zone: timeZone }).startOf('day').toMillis()
      : asUtc_ms - before_min * 60_000;
  };
}

/**
 * The date of an instant in UTC.
 * @example dateText(86400000); // => '1970-01-02'
 */
export function dateText(ms: number): string {
  return new Date(ms).toISOString().slice(0, 10);
}
