import { InputProblem } from '../common/InputProblem.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import { fileSource } from '../tables/TableSource.ts';
import type { ImportOptions } from '../weather/importWeather.ts';
import { ownRecord } from '../weather/normalForm.ts';
import { statedWeather } from '../weather/statedWeather.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';

/** A weather file by its path, and the name the user gave it. */
interface WeatherFile {
  path: string;
  name: string;
}

/** What the user says of the weather beside the scenario; each wins over it. */
export interface WeatherWishes extends Omit<ImportOptions, 'constant_degC'> {
  /** Take the place of the scenario's weather file, and are recognised. */
  files?: readonly WeatherFile[] | undefined;
}

/**
 * The weather of a scenario, whatever its layout: proved against the sun and mended where the file is recognised, taken
 * by its word and refused where it would be mended where the scenario states stamp and columns.
 *
 * in: scenario; wishes
 * out: the weather, of any length; undefined where the scenario names none
 * throws: FILE_*, WEATHER_*
 */
export async function loadWeather(
  scenario: Scenario,
  wishes: WeatherWishes = {},
): Promise<WeatherRecord | undefined> {
  const { files, ...said } = wishes;
  const { section, path } = scenario.weather ?? {};
  const stated = section === undefined ? {} : statedWeather(section);
  if (files !== undefined) {
    // Another file is laid out in its own way: of the scenario's weather only the air for hours without one is kept.
    const { constant_degC } = stated;
    return recordOf(scenario, files, { ...(constant_degC === undefined ? {} : { constant_degC }), ...said });
  }
  if (section === undefined || path === undefined) return undefined;
  const columns = { ...stated.columns, ...said.columns };
  const units = { ...stated.units, ...said.units };
  return recordOf(scenario, [{ path, name: section.file }], { ...stated, ...said, columns, units });
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
