import { civilInstant, dateText } from '../common/civilTime.ts';
import { DAY_MS, HOUR_MS } from '../common/time.ts';
import { LEAST_SNOW_MM, type SpotLight } from '../spot/spotLight.ts';
import type { NightCalendar } from '../sun/NightCalendar.ts';
import { WEATHER_MARKS } from '../weather/WeatherRecord.ts';

const FILLED = WEATHER_MARKS.indexOf('filled');

/** What the hours of a night come to, whatever the lamp. */
export interface NightDay extends Hours {
  /** Over the civil date of the evening. */
  lightOnCell_Wh_m2: number;
  ghi_Wh_m2: number;
  snowOnLid_h: number;
  /** From noon to noon. */
  filledWeather_h: number;
}

const madeOf = new WeakMap<SpotLight, Map<string, readonly NightDay[]>>();

/**
 * The days of a light's nights, each the civil date of an evening. Remembered for each light, since every lamp in its
 * spot shares it.
 *
 * in: light; timeZone, IANA name; joined, whether the record is closed to a ring
 * out: one a night of the calendar
 */
export function nightDays(light: SpotLight, timeZone: string, joined: boolean): readonly NightDay[] {
  const known = madeOf.get(light) ?? new Map<string, readonly NightDay[]>();
  madeOf.set(light, known);
  const key = `${timeZone} ${joined}`;
  const days = known.get(key) ?? dayRows(light, timeZone, joined);
  known.set(key, days);
  return days;
}

function dayRows(light: SpotLight, timeZone: string, joined: boolean): NightDay[] {
  const { nights, snow, planeOfArray_W_m2, ghi_W_m2, mark } = light;
  const lid_mm = snow?.lid?.lying_mm;
  const midnights = civilDays(nights, timeZone);
  return Array.from({ length: nights.count }, (_, k) => {
    const day = hoursBetween(light, midnights[k]!, midnights[k + 1]!, joined);
    return {
      from: day.from,
      to: day.to,
      joined,
      lightOnCell_Wh_m2: sumOver(day, planeOfArray_W_m2),
      ghi_Wh_m2: sumOver(day, ghi_W_m2),
      snowOnLid_h: lid_mm === undefined ? 0 : snowyHours(day, lid_mm),
      filledWeather_h: filledOver(
        hoursBetween(light, nights.noon_ms[k]!, nights.noon_ms[k + 1]!, joined),
        mark,
      ),
    };
  });
}

/** Hours of a record by their number, from `from` up to but without `to`; numbers outside it are its hours where joined. */
export interface Hours {
  from: number;
  to: number;
  joined: boolean;
}

/** The hours that begin in a stretch. */
function hoursBetween({ start_ms }: SpotLight, from_ms: number, to_ms: number, joined: boolean): Hours {
  const numberAt = (ms: number) => Math.ceil((ms - start_ms) / HOUR_MS - 1e-9);
  return { from: numberAt(from_ms), to: numberAt(to_ms), joined };
}

/** Place of an hour in a record of a length, closed to a ring where joined; -1 outside it. */
function placeOf(hour: number, count: number, joined: boolean): number {
  if (hour >= 0 && hour < count) return hour;
  return joined ? (hour + count) % count : -1;
}

// Each with its own loop over its own kind of column: one for all takes ten times as long.

function sumOver({ from, to, joined }: Hours, column: Float64Array): number {
  let sum = 0;
  for (let hour = from; hour < to; hour++) {
    const i = placeOf(hour, column.length, joined);
    if (i >= 0) sum += column[i]!;
  }
  return sum;
}

/** Greatest value of a column in a night's day, or 0. */
export function mostOver({ from, to, joined }: Hours, column: Float64Array): number {
  let most = 0;
  for (let hour = from; hour < to; hour++) {
    const i = placeOf(hour, column.length, joined);
    if (i >= 0) most = Math.max(most, column[i]!);
  }
  return most;
}

function snowyHours({ from, to, joined }: Hours, lid_mm: Float64Array): number {
  let hours = 0;
  for (let hour = from; hour < to; hour++) {
    const i = placeOf(hour, lid_mm.length, joined);
    if (i >= 0 && lid_mm[i]! > LEAST_SNOW_MM) hours++;
  }
  return hours;
}

function filledOver({ from, to, joined }: Hours, mark: Uint8Array): number {
  let hours = 0;
  for (let hour = from; hour < to; hour++) {
    const i = placeOf(hour, mark.length, joined);
    if (i >= 0 && mark[i]! >= FILLED) hours++;
  }
  return hours;
}

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
    const midnight = civilInstant(timeZone);
    for (let k = 0; k < nights.count; k++) days[k] = midnight(nights.eveningDate[k]!);
    const last = nights.eveningDate[nights.count - 1]!;
    days[nights.count] = midnight(dateText(Date.parse(last) + DAY_MS));
    zones.set(timeZone, days);
  }
  return days;
}
