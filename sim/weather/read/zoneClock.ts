import { IANAZone } from 'luxon';
import { DAY_MS } from '../../common/time.ts';
import { sunOfDay } from '../../sun/sunOfDay.ts';
import type { ZoneClaim } from '../recognise/DetectedFormat.ts';

/** Turns wall clocks into UTC, in the order of the rows. */
export interface ZoneClock {
  /**
   * UTC milliseconds; NaN where the clock skipped that time. Of a time that came twice, the first until the rows
   * have reached it, then the second.
   */
  toUtc: (wall_ms: number) => number;
  /** The clock shows this time twice. */
  twice: (wall_ms: number) => boolean;
}

/**
 * The clock of a file: UTC milliseconds from wall-clock milliseconds.
 *
 * in: zone; longitude_deg, for true solar time, east positive
 * out: the clock; its civil time remembers the row before
 * valid: true solar time by the sun's mean elements, within 6 seconds
 * source: AstronomicalAlmanacLowPrecision for the equation of time
 */
export function zoneClock(zone: ZoneClaim, longitude_deg = Number.NaN): ZoneClock {
  const once = () => false;
  if (zone.kind === 'civil') return civilClock(zone.zone);
  if (zone.kind === 'solar') {
    return {
      // True solar time is UTC plus four minutes a degree plus the equation of time, whole milliseconds.
      toUtc: (wall_ms) => {
        const mean_ms = wall_ms - longitude_deg * 240_000;
        return Math.round(mean_ms - sunOfDay(mean_ms).equationOfTime_min * 60_000);
      },
      twice: once,
    };
  }
  const offset_ms = zone.kind === 'fixed' ? zone.offset_min * 60_000 : 0;
  return { toUtc: (wall_ms) => wall_ms - offset_ms, twice: once };
}

function civilClock(name: string): ZoneClock {
  const zone = IANAZone.create(name);
  // Offsets at the start of each day and hour are asked of luxon once.
  const days = new Map<number, number>();
  const offsetAt = (ms: number): number => {
    const day = Math.floor(ms / DAY_MS);
    const from = dayOffset(days, day, zone);
    return from === dayOffset(days, day + 1, zone) ? from : zone.offset(ms) * 60_000;
  };
  let latest = Number.NEGATIVE_INFINITY;
  const both = (wall_ms: number): [number, number] => {
    // The offsets on either side of anything that changes near.
    const before = wall_ms - offsetAt(wall_ms - DAY_MS);
    const after = wall_ms - offsetAt(wall_ms + DAY_MS);
    return [Math.min(before, after), Math.max(before, after)];
  };
  const fits = (utc_ms: number, wall_ms: number): boolean => utc_ms + offsetAt(utc_ms) === wall_ms;
  return {
    toUtc: (wall_ms) => {
      const [first, second] = both(wall_ms);
      let utc = Number.NaN;
      if (fits(first, wall_ms)) utc = first;
      if (second !== first && fits(second, wall_ms) && (Number.isNaN(utc) || utc <= latest)) utc = second;
      if (!Number.isNaN(utc)) latest = utc;
      return utc;
    },
    twice: (wall_ms) => {
      const [first, second] = both(wall_ms);
      return first !== second && fits(first, wall_ms) && fits(second, wall_ms);
    },
  };
}

function dayOffset(days: Map<number, number>, day: number, zone: IANAZone): number {
  let offset = days.get(day);
  if (offset === undefined) {
    offset = zone.offset(day * DAY_MS) * 60_000;
    days.set(day, offset);
  }
  return offset;
}
