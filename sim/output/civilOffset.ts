import { IANAZone } from 'luxon';
import { DAY_MS } from '../common/time.ts';

/** What luxon said of each zone and day before. */
const remembered = new Map<string, Map<number, number>>();

/**
 * A reader of civil time: how far a zone is ahead of UTC, minutes. It asks luxon twice a day, and instant by instant
 * only on days on which the clocks change.
 *
 * in: timeZone, IANA name; then ms, UTC milliseconds
 * out: offset; NaN for NaN
 * throws: Error where the zone is not known
 */
export function civilOffset(timeZone: string): (ms: number) => number {
  const zone = IANAZone.create(timeZone);
  if (!zone.isValid) throw new Error(`no time zone ${timeZone}`);
  const offsetOfDay_min = remembered.get(timeZone) ?? new Map<number, number>();
  remembered.set(timeZone, offsetOfDay_min);
  return (ms) => {
    if (Number.isNaN(ms)) return Number.NaN;
    const day = Math.floor(ms / DAY_MS);
    let offset_min = offsetOfDay_min.get(day);
    if (offset_min === undefined) {
      const first_min = zone.offset(day * DAY_MS);
      offset_min = first_min === zone.offset((day + 1) * DAY_MS) ? first_min : Number.NaN;
      offsetOfDay_min.set(day, offset_min);
    }
    return Number.isNaN(offset_min) ? zone.offset(ms) : offset_min;
  };
}
