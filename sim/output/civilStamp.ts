import { civilOffset } from './civilOffset.ts';

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

function offsetText(offset_min: number): string {
  const size = Math.abs(Math.round(offset_min));
  const hours = String(Math.floor(size / 60)).padStart(2, '0');
  return `${offset_min < 0 ? '-' : '+'}${hours}:${String(size % 60).padStart(2, '0')}`;
}
