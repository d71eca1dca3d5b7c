import { DateTime } from 'luxon';
import type { NightCalendar } from '../sun/NightCalendar.ts';

const remembered = new WeakMap<NightCalendar, Map<string, Float64Array>>();

/**
 * Civil midnights that begin the evening dates of a calendar, UTC milliseconds, one more than there are nights.
 * Remembered for each calendar, since every lamp in a garden shares it.
 *
 * in: nights; timeZone, IANA name
 */
export function civilDays(nights: NightCalendar, timeZone: string): Float64Array {
  const zones = remembered.get(nights) ?? new Map<string, Float64Array>();
  remembered.set(nights, zones);
  let days = zones.get(timeZone);
  if (days === undefined) {
    days = new Float64Array(nights.count + 1);
    for (let k = 0; k < nights.count; k++) {
      days[k] = DateTime.fromISO(nights.eveningDate[k]!, { zone: timeZone }).startOf('day').toMillis();
    }
    const last = DateTime.fromISO(nights.eveningDate[nights.count - 1]!, { zone: timeZone });
    days[nights.count] = last.plus({ days: 1 }).startOf('day').toMillis();
    zones.set(timeZone, days);
  }
  return days;
}
