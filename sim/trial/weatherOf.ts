import type { Scenario } from '../scenario/Scenario.ts';
import { checkWholeYears } from '../weather/checkWholeYears.ts';
import { readTextFile } from '../weather/readTextFile.ts';
import { readWeather } from '../weather/readWeather.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';

/**
 * The weather a scenario names, read by the mapping that the scenario states and found to be of whole years. For a
 * file that is to be recognised use loadWeather.
 *
 * in: scenario
 * out: the record; undefined where the scenario names none
 * throws: FILE_*, WEATHER_*, SCENARIO_MISSING_KEY where the scenario states no mapping
 */
export function weatherOf(scenario: Scenario): WeatherRecord | undefined {
  if (scenario.weather === undefined) return undefined;
  const { section, path } = scenario.weather;
  const weather = readWeather(readTextFile(path, section.file), section, scenario.site);
  checkWholeYears(weather);
  return weather;
}
