import { HOUR_MS } from '../../../common/time.ts';
import type { PackedDays } from '../packedColumn.ts';
import { hourStarts, spoken } from './page.ts';

/** The days of a winter in its order, hour after hour: hour 0 is the first of the first day. */
export interface HourAxis {
  count: number;
  /** Start of each hour, UTC milliseconds. */
  starts: readonly number[];
  /** First hour of each day. */
  first: readonly number[];
  /** Day of an hour. */
  dayOf: (hour: number) => number;
  /** Civil time at an hour, '2025-12-29 14:00'. */
  localText: (hour: number) => string;
  /** Hours to mark between two of them, on so many pixels. */
  ticks: (min: number, max: number, width: number) => number[];
}

/** Hours as an axis, day by day; start_ms, of the record that they are of. */
export function hourAxis(start_ms: number, days: PackedDays): HourAxis {
  const starts = hourStarts(start_ms, days);
  const first: number[] = [];
  days.hours.reduce((sum, hours, day) => {
    first[day] = sum;
    return sum + hours;
  }, 0);
  const dayOf = (hour: number) => {
    let day = Math.min(Math.floor(hour / 24), first.length - 1);
    while (day > 0 && first[day]! > hour) day--;
    while (day < first.length - 1 && first[day + 1]! <= hour) day++;
    return day;
  };
  const localText = (hour: number) => {
    const at = Math.min(Math.max(Math.floor(hour), 0), starts.length - 1);
    const ms = starts[at]! + (hour - at) * HOUR_MS + days.offset_min[dayOf(at)]! * 60_000;
    return new Date(ms).toISOString().slice(0, 16).replace('T', ' ');
  };
  const ticks = (min: number, max: number, width: number) => {
    const within = (hour: number) => hour >= min && hour <= max;
    const span_days = (max - min) / 24;
    if (span_days <= 3) return clockTicks(days, first, span_days <= 1.2 ? 3 : 6).filter(within);
    const every = Math.ceil(span_days / Math.max(width / 90, 2));
    return first.filter(
      (hour, day) => within(hour) && (every > 12 ? localText(hour).slice(8, 10) === '01' : day % every === 0),
    );
  };
  return { count: starts.length, starts, first, dayOf, localText, ticks };
}

/** What stands at a tick where so many days are shown: the clock, the day, or the month. */
export function tickText(axis: HourAxis, hour: number, span_days: number): string {
  const text = axis.localText(hour);
  if (span_days <= 3 && !text.endsWith('00:00')) return text.slice(11);
  const [day, month] = spoken(text.slice(0, 10)).split(' ');
  return span_days > 120 ? month! : `${day} ${month}`;
}

function clockTicks(days: PackedDays, first: readonly number[], every: number): number[] {
  return first.flatMap((start, day) =>
    Array.from({ length: Math.ceil(days.hours[day]! / every) }, (_, k) => start + k * every),
  );
}
