import type { Problem } from '../common/InputProblem.ts';
import type { ImportOptions } from './readWithClock.ts';
import type { WeatherValue } from './schema.ts';

/**
 * What a scenario's weather section says of its file, as an import takes it. With stamp and columns stated the file is
 * read strictly: these columns and no others, and nothing of them mended.
 *
 * in: section, as the scenario resolved it
 */
export function statedWeather(section: WeatherValue): ImportOptions {
  const { stamp, columns = {}, zone, marks, believe, accept_filled, missing } = section;
  const of = <Key extends 'column' | 'unit'>(key: Key) =>
    Object.fromEntries(
      Object.entries(columns).flatMap(([quantity, choice]) =>
        choice?.[key] === undefined ? [] : [[quantity, choice[key]]],
      ),
    );
  return {
    stamp: stamp?.column,
    zone: zone ?? stamp?.zone,
    marks: marks ?? stamp?.marks,
    believe,
    missing,
    strict: isStrict(section),
    acceptFilled: accept_filled,
    constant_degC: columns.air_temperature?.constant_degC,
    columns: of('column'),
    units: of('unit'),
  };
}

/**
 * What a section that states stamp and columns lacks to be read by them: the light or the temperature, a unit; and the
 * temperature stated twice.
 *
 * in: section, as the scenario resolved it
 * out: SCENARIO_MISSING_KEY, SCENARIO_CONFLICT; none where the file is recognised
 */
export function lacksOfMapping(section: WeatherValue): Problem[] {
  if (!isStrict(section)) return [];
  const problems: Problem[] = [];
  const lacks = (field: string, expected: string, fix: string) =>
    problems.push({ code: 'SCENARIO_MISSING_KEY', field, got: 'nothing', expected, fix });
  const { air_temperature: air, ghi, dni, dhi } = section.columns ?? {};
  if (ghi === undefined && (dni === undefined || dhi === undefined)) {
    lacks(
      'weather.columns.ghi',
      'global horizontal irradiance, or both dni and dhi',
      'add ghi: { column: ..., unit: W/m2 }.',
    );
  }
  if (air?.column !== undefined && air.constant_degC !== undefined) {
    problems.push({
      code: 'SCENARIO_CONFLICT',
      field: 'weather.columns.air_temperature',
      got: 'a column and a constant_degC',
      expected: 'one of the two',
      fix: 'take constant_degC away where the file has temperatures.',
    });
  } else if (air?.column !== undefined && air.unit === undefined) {
    lacks('weather.columns.air_temperature.unit', 'the unit of the column', 'add unit: degC.');
  } else if (air?.column === undefined && air?.constant_degC === undefined) {
    lacks(
      'weather.columns.air_temperature',
      'a column with air temperature, or a constant',
      'add air_temperature: { column: ..., unit: degC }, or { constant_degC: 10 } where the file has none.',
    );
  }
  return problems;
}

function isStrict({ stamp, columns }: WeatherValue): boolean {
  return stamp !== undefined && columns !== undefined && Object.keys(columns).length > 0;
}
