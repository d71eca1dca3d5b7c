import { piecewiseLinear } from '../../common/numeric.ts';
import { DAY_MS, dayOfYear } from '../../common/time.ts';

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
  const season = Math.cos((2 * Math.PI * (dayOfYear(ms) - warmest)) / 365.25);
  const solar_ms = ms + (longitude_deg / 360) * DAY_MS;
  const hour = ((((solar_ms % DAY_MS) + DAY_MS) % DAY_MS) / DAY_MS) * 24;
  const swing_K = DAILY_K.cold + ((DAILY_K.warm - DAILY_K.cold) * (1 + season)) / 2;
  return (
    piecewiseLinear(LATITUDES_DEG, MEAN_DEG_C, latitude_deg) +
    piecewiseLinear(LATITUDES_DEG, HALF_RANGE_K, latitude_deg) * season +
    swing_K * Math.cos((2 * Math.PI * (hour - WARMEST_HOUR)) / 24)
  );
}
