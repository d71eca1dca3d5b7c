import { cos } from '../../common/elementary/sin.ts';
import { piecewiseLinear } from '../../common/numeric.ts';
import { DAY_MS, dayOfYear, HOUR_MS, sinceMidnight } from '../../common/time.ts';
import type { Site } from '../../sun/Site.ts';
import { stretchesOf } from '../quality/stretchesOf.ts';
import type { HourlyColumns } from '../WeatherRecord.ts';

/** Gaps up to this are bridged by a straight line. */
const LONGEST_LINE_H = 6;
/** Longer ones, up to this, follow the usual course of day and season from edge to edge. */
const LONGEST_BRIDGE_H = 360;

/** Air temperature for every hour. */
export interface FilledAir {
  air_degC: Float64Array;
  /** Hours between measured ones that were filled. */
  filled_h: number;
  /** Hours that a constant or the usual temperature of the latitude stands in for. */
  standIn_h: number;
  /** How, for the report: begins with 'stand-in' where no hour is measured. */
  words: string;
}

/**
 * Air temperature for every hour of a record, in degrees Celsius: short gaps by a straight line, longer ones by the
 * usual course of day and season between their edges; what is left is a constant if one is stated, else the usual
 * temperature of the latitude.
 *
 * in: columns, air_degC absent or with NaN; site; constant_degC, of the scenario
 * out: a column without NaN
 */
export function fillAir(
  columns: Pick<HourlyColumns, 'start_ms' | 'count' | 'air_degC'>,
  site: Pick<Site, 'latitude_deg' | 'longitude_deg'>,
  constant_degC?: number,
): FilledAir {
  const { start_ms, count } = columns;
  const usual = (i: number): number =>
    usualAir(start_ms + (i + 0.5) * HOUR_MS, site.latitude_deg, site.longitude_deg);
  const air_degC = columns.air_degC
    ? Float64Array.from(columns.air_degC)
    : new Float64Array(count).fill(Number.NaN);
  let filled_h = 0;
  let standIn_h = 0;
  for (const { from, to } of stretchesOf(count, (i) => Number.isNaN(air_degC[i]!))) {
    const hours = to - from;
    const before = air_degC[from - 1] ?? Number.NaN;
    const after = air_degC[to] ?? Number.NaN;
    if (hours > LONGEST_BRIDGE_H || Number.isNaN(before) || Number.isNaN(after)) {
      for (let i = from; i < to; i++) air_degC[i] = constant_degC ?? usual(i);
      standIn_h += hours;
      continue;
    }
    // What is carried across is the temperature itself, or in longer gaps its departure from the usual one.
    const base = hours > LONGEST_LINE_H ? usual : () => 0;
    const start = before - base(from - 1);
    const rise = after - base(to) - start;
    for (let i = from; i < to; i++) air_degC[i] = base(i) + start + (rise * (i + 1 - from)) / (hours + 1);
    filled_h += hours;
  }
  const side = site.latitude_deg < 0 ? 'south' : 'north';
  const what =
    constant_degC === undefined
      ? `the usual temperature at ${Math.abs(Math.round(site.latitude_deg))} degrees ${side}`
      : `${constant_degC} degC`;
  const parts = [
    filled_h > 0 ? `${filled_h} hours filled between their neighbours` : '',
    standIn_h > 0 ? `${what} stands in for ${standIn_h} hours` : '',
  ].filter((text) => text !== '');
  const words = standIn_h === count ? `stand-in: ${what} in every hour` : parts.join(', ') || 'measured';
  return { air_degC, filled_h, standIn_h, words };
}

const LATITUDES_DEG = [-90, -75, -60, -50, -40, -30, -15, 0, 15, 30, 40, 50, 55, 60, 65, 70, 80, 90];
/** Mean of the year at low places, between sea and inland; from memory. */
const MEAN_DEG_C = [-48, -25, -3, 6, 13, 18.5, 25, 26.5, 26.5, 20, 14, 9.8, 7.8, 4.5, 1, -4, -15, -18];
/** Half of what separates the warmest from the coldest month; from memory. */
const HALF_RANGE_K = [14, 11, 5, 4.5, 5.5, 6.5, 3, 1, 2.5, 8, 10, 8.5, 8.7, 10.5, 12, 12.5, 15, 16];
/** Warmest day, about a month after the solstice; from memory. */
const WARMEST_DAY_NORTH = 201;
const WARMEST_DAY_SOUTH = 20;
/** Half of the daily swing in the warmest and in the coldest season, and the solar hour of its peak; from memory. */
const DAILY_K = { warm: 4.5, cold: 2 };
const WARMEST_HOUR = 14.5;

/**
 * Usual air temperature at a latitude and time of year, in degrees Celsius: a stand-in where a record has none. Not
 * for places high up, deserts and the hearts of continents.
 *
 * in: ms, UTC milliseconds; latitude_deg; longitude_deg, for the hour of the day
 * out: degrees Celsius
 * valid: monthly means of low places at 35 to 62 degrees north to 5 K (from memory, tested against a few)
 */
export function usualAir(ms: number, latitude_deg: number, longitude_deg: number): number {
  const warmest = latitude_deg < 0 ? WARMEST_DAY_SOUTH : WARMEST_DAY_NORTH;
  const season = cos((2 * Math.PI * (dayOfYear(ms) - warmest)) / 365.25);
  const solar_ms = ms + (longitude_deg / 360) * DAY_MS;
  const hour = sinceMidnight(solar_ms) / HOUR_MS;
  const swing_K = DAILY_K.cold + ((DAILY_K.warm - DAILY_K.cold) * (1 + season)) / 2;
  return (
    piecewiseLinear(LATITUDES_DEG, MEAN_DEG_C, latitude_deg) +
    piecewiseLinear(LATITUDES_DEG, HALF_RANGE_K, latitude_deg) * season +
    swing_K * cos((2 * Math.PI * (hour - WARMEST_HOUR)) / 24)
  );
}
