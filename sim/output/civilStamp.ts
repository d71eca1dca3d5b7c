import { IANAZone } from 'luxon';

const DAY_MS = 86_400_000;

/**
 * A writer of instants as civil time with offset, to the second, for CSV files and the terminal.
 * It asks luxon twice a day, and instant by instant only on days on which the clocks change.
 *
 * in: timeZone, IANA name; then ms, UTC milliseconds
 * out: text such as 2025-12-21T16:40:12+01:00; '' for NaN
 * throws: Error where the zone is not known
 * source: ISO8601
 */
export function civilStamp(timeZone: string): (ms: number) => string {
  const zone = IANAZone.create(timeZone);
  if (!zone.isValid) throw new Error(`no time zone ${timeZone}`);
  const offsetOfDay_min = new Map<number, number>();
  return (ms) => {
    if (Number.isNaN(ms)) return '';
    const whole_ms = Math.round(ms / 1000) * 1000;
    const day = Math.floor(whole_ms / DAY_MS);
    let offset_min = offsetOfDay_min.get(day);
    if (offset_min === undefined) {
      const first_min = zone.offset(day * DAY_MS);
      offset_min = first_min === zone.offset((day + 1) * DAY_MS) ? first_min : Number.NaN;
      offsetOfDay_min.set(day, offset_min);
    }
    if (Number.isNaN(offset_min)) offset_min = zone.offset(whole_ms);
    const local = new Date(whole_ms + offset_min * 60_000).toISOString().slice(0, 19);
    return `${local}${offsetText(offset_min)}`;
  };
}

function offsetText(offset_min: number): string {
  const size = Math.abs(Math.round(offset_min));
  const hours = String(Math.floor(size / 60)).padStart(2, '0');
  return `${offset_min < 0 ? '-' : '+'}${hours}:${String(size % 60).padStart(2, '0')}`;
}
