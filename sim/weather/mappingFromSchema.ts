import { InputProblem, type Problem } from '../common/InputProblem.ts';
import type { HourlyMapping } from '../tables/hourlyTable.ts';
import type { WeatherValue } from './schema.ts';

/**
 * The mapping of a weather section, whole: which columns hold what and how the stamps are meant.
 *
 * in: section, as the scenario resolved it
 * out: the mapping; a constant temperature is no column and stays out of it
 * throws: SCENARIO_MISSING_KEY where the stamp, the light or the temperature is not stated; SCENARIO_CONFLICT where
 * the temperature is stated twice
 */
export function mappingFromSchema(section: WeatherValue): HourlyMapping {
  const problems: Problem[] = [];
  const lacks = (field: string, expected: string, fix: string) =>
    problems.push({ code: 'SCENARIO_MISSING_KEY', field, got: 'nothing', expected, fix });
  const { stamp, missing } = section;
  const { air_temperature: air, ...others } = section.columns ?? {};
  if (stamp === undefined) {
    lacks(
      'weather.stamp',
      'the column with the time of each row',
      'add stamp: { column: ..., zone: UTC, marks: start }.',
    );
  }
  const closes = others.dni !== undefined && others.dhi !== undefined;
  if (others.ghi === undefined && !closes) {
    lacks(
      'weather.columns.ghi',
      'global horizontal irradiance, or both dni and dhi',
      'add ghi: { column: ..., unit: W/m2 }.',
    );
  }
  const columns: HourlyMapping['columns'] = {};
  for (const [name, column] of Object.entries(others)) if (column !== undefined) columns[name] = column;
  if (air?.column !== undefined && air.constant_degC !== undefined) {
    problems.push({
      code: 'SCENARIO_CONFLICT',
      field: 'weather.columns.air_temperature',
      got: 'a column and a constant_degC',
      expected: 'one of the two',
      fix: 'take constant_degC away where the file has temperatures.',
    });
  } else if (air?.column !== undefined) {
    if (air.unit === undefined) {
      lacks('weather.columns.air_temperature.unit', 'the unit of the column', 'add unit: degC.');
    } else columns.air_temperature = { column: air.column, unit: air.unit };
  } else if (air?.constant_degC === undefined) {
    lacks(
      'weather.columns.air_temperature',
      'a column with air temperature, or a constant',
      'add air_temperature: { column: ..., unit: degC }, or { constant_degC: 10 } where the file has none.',
    );
  }
  if (stamp === undefined || problems.length > 0) throw new InputProblem(problems);
  return { stamp, columns, missing };
}
