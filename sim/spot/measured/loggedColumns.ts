import { HOUR_MS } from '../../common/time.ts';
import type { WeatherRecord } from '../../weather/WeatherRecord.ts';
import type { LoggedHours } from '../SpotFiles.ts';
import type { LoggedLight } from '../spotParams.ts';

/** Light on the cell and air, hour by hour over the hours of a log. */
export interface LoggedColumns {
  start_ms: number;
  count: number;
  planeOfArray_W_m2: Float64Array;
  air_degC: Float64Array;
  /** Whether the air stands in for what nobody measured. */
  airStandsIn: boolean;
}

/** Air where neither log nor weather tells it: a stand-in. */
const STAND_IN_AIR_DEG_C = 10;

/**
 * The light on a cell as it was logged, in W/m2, with the air of its hours.
 *
 * in: logged, the mapping; hours, what its file says; weather, only for the air where the log has none
 * out: columns over the hours of the log
 */
export function loggedColumns(
  { air_temperature: air }: LoggedLight,
  { start_ms, light_W_m2, air_degC }: LoggedHours,
  weather: WeatherRecord | undefined,
): LoggedColumns {
  const count = light_W_m2.length;
  const stated_degC = air?.constant_degC;
  const measured = air_degC ?? (stated_degC === undefined ? airOf(weather, start_ms, count) : undefined);
  return {
    start_ms,
    count,
    planeOfArray_W_m2: light_W_m2.slice(),
    air_degC: measured ?? new Float64Array(count).fill(stated_degC ?? STAND_IN_AIR_DEG_C),
    airStandsIn: measured === undefined,
  };
}

/** Air temperature of the weather over some hours; undefined where it does not hold them all. */
function airOf(
  weather: WeatherRecord | undefined,
  start_ms: number,
  count: number,
): Float64Array | undefined {
  if (weather === undefined) return undefined;
  const offset = (start_ms - weather.start_ms) / HOUR_MS;
  const held = Number.isInteger(offset) && offset >= 0 && offset + count <= weather.count;
  return held ? weather.air_degC.slice(offset, offset + count) : undefined;
}
