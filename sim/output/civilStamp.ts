import { civilOffset } from '../common/civilTime.ts';

/**
 * A writer of instants as civil time with offset, to the second, for CSV files and the terminal.
 *
 * in: timeZone, IANA name; then ms, UTC milliseconds
 * out: text such as 2025-12-21T16:40:12+01:00; '' for NaN
 * throws: Error where the zone is not known
 * source: ISO8601
 */
export function civilStamp(timeZone: string): (ms: number) => string {
  const offset = civilOffset(timeZone);
  return (ms) => {
    if (Number.isNaN(ms)) return '';
    const whole_ms = Math.round(ms / 1000) * 1000;
    const offset_min = offset(whole_ms);
    const local = new Date(whole_ms + offset_min * 60_000).toISOString().slice(0, 19);
    return `${local}${offsetText(offset_min)}`;
  };
}

/**
 * What follows the time of day in a zone ahead of UTC by so many minutes.
 * @example offsetText(-150); // => '-02:30'
 */
export function offsetText(offset_min: number): string {
  const size = Math.abs(Math.round(offset_min));
  const hours = String(Math.floor(size / 60)).padStart(2, '0');
  return `${offset_min < 0 ? '-' : '+'}${hours}:${String(size % 60).padStart(2, '0')}`;
}

/**
 * An instant as UTC text to the second, for CSV files; '' for NaN.
 *
 * in: ms, UTC milliseconds
 * out: text such as 2025-12-21T15:40:12Z
 * source: ISO8601
 * @example utcStamp(0); // => '1970-01-01T00:00:00Z'
 */
export function utcStamp(ms: number): string {
  if (Number.isNaN(ms)) return '';
  return `${new Date(Math.round(ms / 1000) * 1000).toISOString().slice(0, 19)}Z`;
}
