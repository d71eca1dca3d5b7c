import { DAY_MS, dayOfYear, HOUR_MS } from '../common/time.ts';
import { winterOf } from '../sun/NightCalendar.ts';
import type { Site } from '../sun/Site.ts';
import { type SunColumns, sunColumns } from '../sun/sunColumns.ts';
import { WEATHER_MARKS, type WeatherRecord } from '../weather/WeatherRecord.ts';

/** Hours of a day. */
export const DAY_H = 24;

/**
 * The days of a weather record, cut at solar midnight of the site (to the hour, so that a day's hours stand in for those
 * of another date). Row d covers 24 hours of the record from `hour[d]`.
 */
export interface RecordedDays {
  record: WeatherRecord;
  /** Whether the place lies in the south, its darkest days in June. */
  southern: boolean;
  /** Hours that solar midnight lies after midnight UTC, a whole number, -12 to 12. */
  midnight_h: number;
  count: number;
  /** First hour in the record. */
  hour: Uint32Array;
  /** Day of the season, 0 to 364: of the year from 1 January; of a leap year the last two fall together. */
  season: Uint16Array;
  /** Winter it belongs to, an index into `winters`. */
  winter: Uint16Array;
  winters: string[];
  /** Daily clearness index; NaN where the sun stays down or too much of the day was filled. */
  clearness: Float64Array;
  /** 1 where the sun stays down, or hardly rises: there is nothing to know of its light. */
  sunless: Uint8Array;
  /** Clearness index of each hour of the record, by the light that falls outside the air on level ground; 0 without sun. */
  hourClearness: Float64Array;
}

/** Share of a day's light that may rest on filled hours before the day is left out. */
const MOST_FILLED = 0.1;
/** Days with less light than this outside the air, Wh/m2, have no clearness to speak of. */
const LEAST_OUTSIDE_WH_M2 = 50;

const FILLED = WEATHER_MARKS.indexOf('filled');

/**
 * Cuts a weather record into the days a climate is learned from.
 *
 * in: record; site
 * out: its whole days in the order of time, each with its clearness index
 * source: Gueymard2018 through `sunColumns` for the light outside the air
 */
export function recordedDays(
  record: WeatherRecord,
  site: Pick<Site, 'latitude_deg' | 'longitude_deg'>,
): RecordedDays {
  const sun = record.sun ?? sunColumns(record.start_ms, record.count, site);
  const midnight_h = solarMidnight_h(site.longitude_deg);
  const first = firstMidnight(record.start_ms, midnight_h);
  const count = Math.max(0, Math.floor((record.count - first) / DAY_H));
  const hourClearness = new Float64Array(record.count);
  for (let i = 0; i < record.count; i++) {
    const outside = outside_W_m2(sun, i);
    hourClearness[i] = outside > 0 ? Math.max(0, record.ghi_W_m2[i]!) / outside : 0;
  }
  const days: RecordedDays = {
    record,
    southern: site.latitude_deg < 0,
    midnight_h,
    count,
    hour: new Uint32Array(count),
    season: new Uint16Array(count),
    winter: new Uint16Array(count),
    winters: [],
    clearness: new Float64Array(count),
    sunless: new Uint8Array(count),
    hourClearness,
  };
  for (let d = 0; d < count; d++) {
    const hour = first + d * DAY_H;
    const noon_ms = record.start_ms + (hour + 12) * HOUR_MS;
    const winter = winterOf(new Date(noon_ms).toISOString().slice(0, 10), site.latitude_deg);
    if (days.winters.at(-1) !== winter) days.winters.push(winter);
    days.hour[d] = hour;
    days.season[d] = seasonOf(noon_ms);
    days.winter[d] = days.winters.length - 1;
    const outside = outsideOfDay(sun, hour);
    days.sunless[d] = Number(outside < LEAST_OUTSIDE_WH_M2);
    days.clearness[d] = days.sunless[d] ? Number.NaN : clearnessOf(record, sun, hour, outside);
  }
  return days;
}

/** Light outside the air on level ground, mean over hour i, W/m2. */
export function outside_W_m2(sun: SunColumns, i: number): number {
  return sun.extraterrestrial_W_m2[i]! * sun.upCosZenith[i]! * sun.upShare[i]!;
}

/** Day of the season of an instant, 0 to 364. */
export function seasonOf(ms: number): number {
  return Math.min(364, Math.floor(dayOfYear(ms)) - 1);
}

/** Hours that solar midnight lies after midnight UTC, to the hour. */
export function solarMidnight_h(longitude_deg: number): number {
  return Math.round(-longitude_deg / 15) + 0;
}

function firstMidnight(start_ms: number, midnight_h: number): number {
  const into_h = Math.round((((start_ms - midnight_h * HOUR_MS) % DAY_MS) + DAY_MS) % DAY_MS) / HOUR_MS;
  return into_h === 0 ? 0 : Math.ceil(DAY_H - into_h);
}

/** Season days of the shortest day, north and south. */
const SHORTEST = { north: 354, south: 171 };

/** Days of the season that day d lies from the shortest one, either way. */
export function daysOffShortest({ season, southern }: RecordedDays, d: number): number {
  const away = Math.abs(season[d]! - (southern ? SHORTEST.south : SHORTEST.north));
  return Math.min(away, 365 - away);
}

/** Light outside the air of the day from an hour of the record, Wh/m2. */
function outsideOfDay(sun: SunColumns, from: number): number {
  let outside = 0;
  for (let i = from; i < from + DAY_H; i++) outside += outside_W_m2(sun, i);
  return outside;
}

/** Clearness index of the day from an hour of the record; NaN where too much of it was filled. */
function clearnessOf(record: WeatherRecord, sun: SunColumns, from: number, outside: number): number {
  let light = 0;
  let filled = 0;
  for (let i = from; i < from + DAY_H; i++) {
    const up = outside_W_m2(sun, i);
    light += up > 0 ? Math.max(0, record.ghi_W_m2[i]!) : 0;
    if (record.mark[i] === FILLED) filled += up;
  }
  return filled <= MOST_FILLED * outside ? light / outside : Number.NaN;
}
