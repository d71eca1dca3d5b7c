import { InputProblem } from '../common/InputProblem.ts';
import { HOUR_MS } from '../common/time.ts';
import { nightCalendar } from '../sun/NightCalendar.ts';
import type { Site } from '../sun/Site.ts';
import { sunColumns } from '../sun/sunColumns.ts';
import type { HourlySeries } from '../weather/examineHourlyCsv.ts';
import { problemList } from '../weather/problemList.ts';
import { readHourlySeries } from '../weather/readHourlyCsv.ts';
import { WEATHER_MARKS, type WeatherRecord } from '../weather/WeatherRecord.ts';
import type { SpotLight } from './spotLight.ts';
import type { LoggedLight } from './spotParams.ts';

/** Below this a reading is no sensor's offset any more; above the other none of sunlight on the ground. */
const LEAST_W_M2 = -10;
const MOST_W_M2 = 1600;

/** Air where neither log nor weather tells it: a stand-in. */
const STAND_IN_AIR_DEG_C = 10;

/**
 * The light on a cell as it was logged, in W/m2, hour by hour over the hours of the log. Sun and sky are by-passed;
 * dusk, dawn and the sun's altitude still come from the site.
 *
 * in: logged, the mapping; bytes of its file; weather, only for the air where the log has none; site
 * out: light with all of it under `sky`, ghi, dni and dhi NaN
 * throws: WEATHER_VALUE_OUT_OF_RANGE; what `readHourlySeries` throws
 */
export function loggedSpotLight(
  logged: LoggedLight,
  bytes: Uint8Array,
  weather: WeatherRecord | undefined,
  site: Site,
): SpotLight {
  const { air, stamp, column, unit, missing } = logged;
  const series = readHourlySeries(
    { name: logged.file, bytes },
    {
      stamp,
      columns: {
        light_on_cell: { column, unit },
        ...(air !== undefined && 'column' in air ? { air_temperature: air } : {}),
      },
      missing,
    },
  );
  const { start_ms, count } = series;
  const light_W_m2 = series.columns.light_on_cell!;
  checkRange(series, light_W_m2, logged);
  const planeOfArray_W_m2 = light_W_m2.map((value) => Math.max(value, 0));
  const airOf = airTemperature(series, air, weather);
  const notKnown = () => new Float64Array(count).fill(Number.NaN);
  const nights = nightCalendar(start_ms, count, site);
  return {
    start_ms,
    count,
    planeOfArray_W_m2,
    beam_W_m2: new Float64Array(count),
    sky_W_m2: planeOfArray_W_m2.slice(),
    reflected_W_m2: new Float64Array(count),
    ghi_W_m2: notKnown(),
    dni_W_m2: notKnown(),
    dhi_W_m2: notKnown(),
    air_degC: airOf.air_degC,
    mark: new Uint8Array(count).fill(WEATHER_MARKS.indexOf(airOf.standIn ? 'stand-in' : 'measured')),
    sunAltitude_deg: sunColumns(start_ms, count, site).altitude_deg,
    dusk_ms: nights.dusk_ms,
    dawn_ms: nights.dawn_ms,
    nights,
    cappedHours: 0,
    nightLight_lux: 0,
  };
}

function checkRange(series: HourlySeries, light_W_m2: Float64Array, logged: LoggedLight): void {
  const problems = problemList();
  light_W_m2.forEach((value, i) => {
    if (value >= LEAST_W_M2 && value <= MOST_W_M2) return;
    problems.add('range', () => ({
      code: 'WEATHER_VALUE_OUT_OF_RANGE',
      file: logged.file,
      line: series.line[i]!,
      field: logged.column,
      got: `${value} W/m2`,
      expected: `${LEAST_W_M2} to ${MOST_W_M2} W/m2`,
      fix: `check the unit (${logged.unit} is stated) and the sensor.`,
    }));
  });
  const list = problems.list();
  if (list.length > 0) throw new InputProblem(list);
}

/** Air temperature from the log, the stated constant, or the weather of the same hours; else a stand-in. */
function airTemperature(
  series: HourlySeries,
  air: LoggedLight['air'],
  weather: WeatherRecord | undefined,
): { air_degC: Float64Array; standIn: boolean } {
  const { start_ms, count } = series;
  const own = series.columns.air_temperature;
  if (own !== undefined) return { air_degC: own, standIn: false };
  if (air !== undefined && 'constant_degC' in air) {
    return { air_degC: new Float64Array(count).fill(air.constant_degC), standIn: true };
  }
  const offset = weather === undefined ? -1 : (start_ms - weather.start_ms) / HOUR_MS;
  if (weather !== undefined && Number.isInteger(offset) && offset >= 0 && offset + count <= weather.count) {
    return { air_degC: weather.air_degC.slice(offset, offset + count), standIn: false };
  }
  return { air_degC: new Float64Array(count).fill(STAND_IN_AIR_DEG_C), standIn: true };
}
