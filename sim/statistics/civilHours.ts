import { civilInstant, civilOffset, dateText } from '../common/civilTime.ts';
import { compensatedSum } from '../common/numeric.ts';
import { DAY_MS, HOUR_MS } from '../common/time.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import { WEATHER_MARKS } from '../weather/WeatherRecord.ts';
import type { YearColumns } from '../year/YearColumns.ts';

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
  const offset = civilOffset(timeZone);
  const midnight = civilInstant(timeZone);
  let at_ms = start_ms;
  for (let from = 0; from < count; ) {
    const offset_min = offset(at_ms);
    const civil_ms = at_ms + offset_min * 60_000;
    const next_ms = midnight(dateText(civil_ms + DAY_MS));
    const to = Math.min(count, Math.ceil((next_ms - start_ms) / HOUR_MS));
    if (to > from) days.push({ date: dateText(civil_ms), from, to, offset_min });
    from = to;
    at_ms = next_ms;
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

/** Between what voltages the capacitor moved on a civil date. */
export interface CapacitorDay {
  night: string;
  lowest_V: number;
  highest_V: number;
}

/**
 * The band of the capacitor's voltage, day by day, volts: lowest within the hours, highest at their ends.
 * in: columns, hours of a trial; days, the hours of each civil date
 * out: a row a day
 */
export function capacitorDays(
  columns: Pick<YearColumns, 'capacitorLowest_V' | 'capacitorEnd_V'>,
  days: readonly CivilDay[],
): CapacitorDay[] {
  return days.map(({ date, from, to }) => ({
    night: date,
    lowest_V: Math.min(...columns.capacitorLowest_V.subarray(from, to)),
    highest_V: Math.max(...columns.capacitorEnd_V.subarray(from, to)),
  }));
}

/** The weather of a civil date. */
export interface WeatherDay {
  night: string;
  /** Sum over the date; NaN where it does not apply. */
  ghi_Wh_m2: number;
  coldest_degC: number;
  warmest_degC: number;
  /** Hours that were filled or stand in. */
  filled_h: number;
}

const FILLED = WEATHER_MARKS.indexOf('filled');

/**
 * The weather day by day.
 * in: light, which carries the sky's columns; days, the hours of each civil date
 * out: a row a day; global light in Wh/m2, air in degC
 */
export function weatherDays(
  light: Pick<SpotLight, 'ghi_W_m2' | 'air_degC' | 'mark'>,
  days: readonly CivilDay[],
): WeatherDay[] {
  return days.map(({ date, from, to }) => {
    const air = light.air_degC.subarray(from, to);
    return {
      night: date,
      ghi_Wh_m2: compensatedSum(light.ghi_W_m2.subarray(from, to)),
      coldest_degC: Math.min(...air),
      warmest_degC: Math.max(...air),
      filled_h: light.mark.subarray(from, to).filter((mark) => mark >= FILLED).length,
    };
  });
}

/**
 * How many hours rest on what, hours by weather mark; marks that do not occur are left out.
 *
 * in: mark, an index into WEATHER_MARKS for each hour
 * out: counts by name
 */
export function markCounts(mark: Uint8Array): { mark: string; hours: number }[] {
  const counts = new Array<number>(WEATHER_MARKS.length).fill(0);
  for (const which of mark) counts[which]!++;
  return WEATHER_MARKS.map((name, k) => ({ mark: name, hours: counts[k]! })).filter(({ hours }) => hours > 0);
}
