import { InputProblem } from '../common/InputProblem.ts';
import type { Site } from '../sun/Site.ts';
import { sunColumns } from '../sun/sunColumns.ts';
import { examineHourlyTable, type HourlyMapping, type HourlySeries } from '../tables/hourlyTable.ts';
import type { NamedBytes } from '../tables/TableSource.ts';
import { checkLimits } from './checkLimits.ts';
import { checkSunDown } from './checkSunDown.ts';
import { mappingFromSchema } from './mappingFromSchema.ts';
import type { WeatherValue } from './schema.ts';
import { columnsOf, WEATHER_MARKS, type WeatherRecord } from './WeatherRecord.ts';

/**
 * Hourly weather of a file, checked, in canonical units (W/m2, degC, m, mm, m/s). Any number of hours.
 *
 * in: file, name and bytes; section, the scenario's weather with its mapping; site, for the checks against the sun
 * out: the record; small readings below zero and at night are set to 0 and counted in origin.options
 * throws: what readHourlyTable throws, SCENARIO_MISSING_KEY, SCENARIO_CONFLICT, WEATHER_VALUE_OUT_OF_RANGE,
 * WEATHER_SUN_DOWN; all problems of the file together
 * source: LongDutton2002; ISO9060
 */
export function readWeather(
  file: NamedBytes,
  section: WeatherValue,
  site: Pick<Site, 'latitude_deg' | 'longitude_deg'>,
): WeatherRecord {
  const mapping = mappingFromSchema(section);
  const { series, problems } = examineHourlyTable(file, mapping);
  if (series === undefined) throw new InputProblem(problems.list());
  const sun = sunColumns(series.start_ms, series.count, site);
  checkLimits(file.name, series, mapping, sun, problems);
  const down = checkSunDown(file.name, series, mapping, sun, problems);
  const found = problems.list();
  if (found.length > 0) throw new InputProblem(found);

  const options = describeOptions(series, mapping);
  const { ghi, dni, dhi } = series.columns;
  for (const name of ['ghi', 'dni', 'dhi']) {
    const values = series.columns[name];
    const set = values === undefined ? 0 : offsetsToZero(values, down);
    if (set > 0) options[`${name} offsets`] = `${set} hours below zero, or above it at night, set to 0`;
  }
  const mark = new Uint8Array(series.count);
  const closed = new Float64Array(ghi === undefined ? series.count : 0);
  if (ghi === undefined) {
    mark.fill(WEATHER_MARKS.indexOf('closed'));
    options.ghi = 'closed from dni and dhi with the mean height of the sun over each hour';
    for (let i = 0; i < closed.length; i++) {
      closed[i] = dhi![i]! + dni![i]! * sun.upCosZenith[i]! * sun.upShare[i]!;
    }
  }
  const constant = section.columns?.air_temperature?.constant_degC;
  if (series.columns.air_temperature === undefined)
    options['air temperature'] = `stand-in: ${constant} degC in every hour`;
  return {
    start_ms: series.start_ms,
    step_s: 3600,
    count: series.count,
    ghi_W_m2: closed,
    air_degC: new Float64Array(series.count).fill(constant ?? Number.NaN),
    ...columnsOf(series.columns),
    sun,
    mark,
    origin: { file: file.name, sha256: series.sha256, options, filledHours: 0 },
  };
}

/** How stamps, columns and units were read, in words. */
function describeOptions(series: HourlySeries, mapping: HourlyMapping): Record<string, string> {
  const { column, marks } = mapping.stamp;
  const options: Record<string, string> = {
    stamp: `column "${column}", ${series.stampStyle}, zone ${series.stampZone}, marks the ${marks} of its hour`,
  };
  for (const [name, source] of Object.entries(mapping.columns)) {
    options[name.replaceAll('_', ' ')] = `column "${source.column}" in ${source.unit}`;
  }
  options['missing codes'] = mapping.missing.map((code) => JSON.stringify(code)).join(', ') || 'none';
  return options;
}

/** Sets readings below zero, and any at night, to 0; says how many. What no offset explains was refused before. */
function offsetsToZero(values: Float64Array, down: Uint8Array): number {
  let set = 0;
  for (let i = 0; i < values.length; i++) {
    if (values[i]! < 0 || (values[i]! > 0 && down[i] === 1)) {
      values[i] = 0;
      set++;
    }
  }
  return set;
}
