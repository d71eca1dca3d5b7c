import type { Scenario } from '../scenario/Scenario.ts';
import { checkWholeYears } from '../weather/checkWholeYears.ts';
import { readTextFile } from '../weather/readTextFile.ts';
import { readWeather } from '../weather/readWeather.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';

/**
 * The weather a scenario names, read and found to be of whole years.
 *
 * in: scenario; file, in place of the one it names
 * out: the record; undefined where the scenario names none
 * throws: FILE_*, WEATHER_*
 */
export function weatherOf(scenario: Scenario, file?: string): WeatherRecord | undefined {
  if (scenario.weather === undefined) return undefined;
  const { section, path } = scenario.weather;
  const source = file === undefined ? readTextFile(path, section.file) : readTextFile(file);
  const weather = readWeather(source, section, scenario.site);
  checkWholeYears(weather);
  return weather;
}
