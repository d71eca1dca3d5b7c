import { InputProblem } from '../common/InputProblem.ts';
import type { NamedBytes } from '../tables/TableSource.ts';
import { examineHourlyCsv, type HourlyMapping, type HourlySeries } from './examineHourlyCsv.ts';

/**
 * Hourly columns of a CSV file under an explicit mapping, each in the canonical unit of its quantity (W/m2 as
 * mean over the hour, degC, m, m/s, share). Whole or not at all.
 *
 * in: file, name and bytes; mapping, which columns hold what
 * out: contiguous hours from start_ms (UTC), the start of the first one; no NaN
 * throws: FILE_EMPTY, FILE_NOT_TEXT, FILE_TRUNCATED, SCENARIO_WRONG_UNIT, SCENARIO_WRONG_TYPE, WEATHER_COLUMN_MISSING,
 * WEATHER_AMBIGUOUS, WEATHER_STAMP_UNREADABLE, WEATHER_GAP, WEATHER_DUPLICATE, WEATHER_DISORDER,
 * WEATHER_VALUE_NOT_NUMBER; all problems of the file together
 * valid: one row an hour
 */
export function readHourlySeries(file: NamedBytes, mapping: HourlyMapping): HourlySeries {
  const { series, problems } = examineHourlyCsv(file, mapping);
  const list = problems.list();
  if (series === undefined || list.length > 0) throw new InputProblem(list);
  return series;
}
