import { fixOf, InputProblem } from '../common/InputProblem.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import { fileSource } from '../tables/TableSource.ts';
import { ownRecord } from '../weather/normalForm.ts';
import type { ImportOptions } from '../weather/readWithClock.ts';
import { statedWeather } from '../weather/statedWeather.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import { unbrokenWeather } from './unbrokenWeather.ts';

/** A weather file by its path, and the name the user gave it. */
export interface WeatherFile {
  path: string;
  name: string;
}

/** What the user says of the weather beside the scenario; each wins over it. */
export interface WeatherWishes extends Omit<ImportOptions, 'constant_degC'> {
  /** Take the place of the scenario's weather file, and are recognised. */
  files?: readonly WeatherFile[] | undefined;
  /** Whether the part before a break in the record counts too. */
  wholeRecord?: boolean | undefined;
}

/**
 * The weather of a scenario, whatever its layout: proved against the sun and mended where the file is recognised, taken
 * by its word and refused where it would be mended where the scenario states stamp and columns; of a record with a
 * break the part after it.
 *
 * in: scenario; wishes
 * out: the weather, of any length; undefined where the scenario names none
 * throws: FILE_*, WEATHER_*; USAGE where the scenario holds a climate alone
 */
export async function loadWeather(
  scenario: Scenario,
  { wholeRecord = false, ...wishes }: WeatherWishes = {},
): Promise<WeatherRecord | undefined> {
  const record = await wholeWeather(scenario, wishes);
  return record && unbrokenWeather(record, scenario.site, wholeRecord);
}

async function wholeWeather(
  scenario: Scenario,
  wishes: Omit<WeatherWishes, 'wholeRecord'>,
): Promise<WeatherRecord | undefined> {
  const { files, ...said } = wishes;
  const { section, path } = scenario.weather ?? {};
  const stated = section === undefined ? {} : statedWeather(section);
  if (files !== undefined) {
    // Another file is laid out in its own way: of the scenario's weather only the air for hours without one is kept.
    const { constant_degC } = stated;
    return recordOf(scenario, files, { ...(constant_degC === undefined ? {} : { constant_degC }), ...said });
  }
  if (section === undefined || path === undefined) {
    if (scenario.climate !== undefined) throw noYear(scenario.file);
    return undefined;
  }
  const columns = { ...stated.columns, ...said.columns };
  const units = { ...stated.units, ...said.units };
  return recordOf(scenario, [{ path, name: section.file }], { ...stated, ...said, columns, units });
}

/** A climate gives winters, none of which is the one that was. */
function noYear(file: string): InputProblem {
  return new InputProblem({
    code: 'USAGE',
    file,
    field: 'weather',
    got: 'a climate, and no year on file',
    expected: 'winters to be made from it, or hourly weather to run through',
    ...fixOf(['--winters 300', '--weather FILE'], ', or weather.file in the scenario.'),
  });
}

async function recordOf(
  scenario: Scenario,
  files: readonly WeatherFile[],
  options: ImportOptions,
): Promise<WeatherRecord> {
  const sources = files.map(({ path, name }) => fileSource(path, name));
  // A record this tool wrote was proved then, and is taken as it stands; one with holes is understood anew.
  const own = options.strict ? undefined : ownRecord(sources)?.record;
  if (own !== undefined && isWhole(own)) return own;
  const { latitude_deg, longitude_deg, elevation_m } = scenario.site;
  // Much to load, and few runs need it.
  const { importWeather } = await import('../weather/importWeather.ts');
  const { record, report } = await importWeather(sources, {
    place: { latitude_deg, longitude_deg, elevation_m },
    ...options,
  });
  if (record === undefined) {
    throw new InputProblem('problem' in report.stretch ? report.stretch.problem : []);
  }
  return record;
}

function isWhole({ ghi_W_m2, air_degC }: WeatherRecord): boolean {
  return !ghi_W_m2.some(Number.isNaN) && !air_degC.some(Number.isNaN);
}
