import { InputProblem } from '../../common/InputProblem.ts';
import { readHourlyTable } from '../../tables/hourlyTable.ts';
import type { NamedBytes } from '../../tables/TableSource.ts';
import type { LoggedHours } from '../SpotFiles.ts';
import type { LoggedLight } from '../spotParams.ts';
import { notDaylight } from './readLightLog.ts';

/**
 * The light on a cell as it was logged, in W/m2, hour by hour, and the air where the log has it.
 *
 * in: file, name and bytes; logged, its mapping
 * throws: WEATHER_VALUE_OUT_OF_RANGE; what `readHourlyTable` throws
 */
export function readLoggedLight(file: NamedBytes, logged: LoggedLight): LoggedHours {
  const { stamp, column, unit, missing, air_temperature: air } = logged;
  const light = { light_on_cell: { column, unit } };
  const columns =
    air?.column === undefined ? light : { ...light, air_temperature: { column: air.column, unit: air.unit } };
  const series = readHourlyTable(file, { stamp, columns, missing });
  const light_W_m2 = series.columns.light_on_cell!;
  const at = { code: 'WEATHER_VALUE_OUT_OF_RANGE', file: file.name, field: column } as const;
  const problems = notDaylight(light_W_m2, series.line, at, unit, (light) => `${light} W/m2`);
  if (problems.length > 0) throw new InputProblem(problems);
  return {
    start_ms: series.start_ms,
    light_W_m2: light_W_m2.map((value) => Math.max(value, 0)),
    air_degC: series.columns.air_temperature,
  };
}
