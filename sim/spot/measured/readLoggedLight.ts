import { InputProblem } from '../../common/InputProblem.ts';
import { HOUR_MS } from '../../common/time.ts';
import { type HourlySeries, readHourlyTable } from '../../tables/hourlyTable.ts';
import type { WeatherRecord } from '../../weather/WeatherRecord.ts';
import type { LoggedLight } from '../spotParams.ts';
import { notDaylight } from './readLightLog.ts';

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
 * The light on a cell as it was logged, in W/m2, hour by hour.
 *
 * in: logged, the mapping; bytes of its file; weather, only for the air where the log has none
 * out: columns over the hours of the log
 * throws: WEATHER_VALUE_OUT_OF_RANGE; what `readHourlyTable` throws
 */
export function readLoggedLight(
  logged: LoggedLight,
  bytes: Uint8Array,
  weather: WeatherRecord | undefined,
): LoggedColumns {
  const { stamp, column, unit, missing, air_temperature: air } = logged;
  const light = { light_on_cell: { column, unit } };
  const columns =
    air?.column === undefined ? light : { ...light, air_temperature: { column: air.column, unit: air.unit } };
  const series = readHourlyTable({ name: logged.file, bytes }, { stamp, columns, missing });
  const light_W_m2 = series.columns.light_on_cell!;
  const at = { code: 'WEATHER_VALUE_OUT_OF_RANGE', file: logged.file, field: column } as const;
  const problems = notDaylight(light_W_m2, series.line, at, unit, (light) => `${light} W/m2`);
  if (problems.length > 0) throw new InputProblem(problems);
  const { start_ms, count } = series;
  const planeOfArray_W_m2 = light_W_m2.map((value) => Math.max(value, 0));
  const stated_degC = air?.constant_degC;
  const measured =
    series.columns.air_temperature ?? (stated_degC === undefined ? airOf(weather, series) : undefined);
  return {
    start_ms,
    count,
    planeOfArray_W_m2,
    air_degC: measured ?? new Float64Array(count).fill(stated_degC ?? STAND_IN_AIR_DEG_C),
    airStandsIn: measured === undefined,
  };
}

/** Air temperature of the weather over the hours of a series; undefined where it does not hold them all. */
function airOf(
  weather: WeatherRecord | undefined,
  { start_ms, count }: HourlySeries,
): Float64Array | undefined {
  if (weather === undefined) return undefined;
  const offset = (start_ms - weather.start_ms) / HOUR_MS;
  const held = Number.isInteger(offset) && offset >= 0 && offset + count <= weather.count;
  return held ? weather.air_degC.slice(offset, offset + count) : undefined;
}
