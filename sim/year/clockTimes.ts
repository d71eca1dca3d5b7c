import { civilInstant, dateText } from '../common/civilTime.ts';
import { DAY_MS, HOUR_MS } from '../common/time.ts';
import type { PromiseSection } from '../lamp/schedule/schema.ts';
import type { NightCalendar } from '../sun/NightCalendar.ts';

/** Instant of a clock time such as '18:30' in a night of the calendar, UTC milliseconds. */
export type Clock = (night: number, time: string) => number;

/** A span of time in UTC milliseconds. */
export interface Span {
  on: number;
  off: number;
}

const clocks = new WeakMap<NightCalendar, Map<string, Float64Array>>();

/**
 * Reads clock times of a night, UTC milliseconds, in the civil time of a zone; those of a whole calendar are kept with it.
 * 12:00 and later is the evening, earlier the morning after.
 */
export function clockTimes(nights: NightCalendar, timeZone: string): Clock {
  const known = clocks.get(nights) ?? new Map<string, Float64Array>();
  clocks.set(nights, known);
  const instant = civilInstant(timeZone);
  return (k, time) => {
    const key = `${timeZone} ${time}`;
    let instants_ms = known.get(key);
    if (instants_ms === undefined) {
      const later_ms = Number(time.slice(0, 2)) < 12 ? DAY_MS : 0;
      instants_ms = Float64Array.from(nights.eveningDate, (evening) =>
        instant(dateText(Date.parse(evening) + later_ms), time),
      );
      known.set(key, instants_ms);
    }
    return instants_ms[k]!;
  };
}

/**
 * A span of the night that begins at dusk or a clock time; undefined where it is empty.
 *
 * in: nights; k, of the calendar; from, 'dusk' or a clock time; how long or until when; clock
 */
export function spanOf(
  nights: NightCalendar,
  k: number,
  from: string,
  { hours, until }: Pick<PromiseSection, 'hours' | 'until'>,
  clock: Clock,
): Span | undefined {
  const on = from === 'dusk' ? nights.dusk_ms[k]! : clock(k, from);
  let off: number;
  if (hours !== undefined) {
    off = on + hours * HOUR_MS;
    // What begins with the dusk ends with the night: nobody wants the lamp by day.
    if (from === 'dusk') off = Math.min(off, nights.dawn_ms[k]!);
  } else if (until === undefined || until === 'dawn') off = nights.dawn_ms[k]!;
  else off = clock(k, until);
  off = Math.min(off, nights.noon_ms[k + 1]!);
  return on < off ? { on, off } : undefined;
}
