import { nearestWord } from '../common/hints.ts';
import { InputProblem } from '../common/InputProblem.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import { readScenarioFile } from '../scenario/scenarioFile.ts';
import { spotLight } from '../spot/spotLight.ts';
import { loadWeather } from '../trial/loadWeather.ts';
import { isMapped } from '../weather/isMapped.ts';
import { type NamedBytes, readTextFile } from '../weather/readTextFile.ts';
import { readWeather } from '../weather/readWeather.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import { type LogKeys, logKeys } from './logKeys.ts';
import { readCapacitorLog } from './readCapacitorLog.ts';
import { type ServiceFit, serviceLog } from './serviceLog.ts';

/** Which lamp in which spot a log belongs to; needed where the scenario has several. */
export interface LogOf {
  lamp?: string | undefined;
  spot?: string | undefined;
}

/** What a log gave, and whose it was. */
export interface LogReport {
  scenario: string;
  lamp: string;
  spot: string;
  log: string;
  /** To write into the scenario. */
  keys: LogKeys;
  timeZone: string;
  fit: ServiceFit;
}

/**
 * What a log of a lamp in service says, the lamp, its spot and the weather of those days being a scenario's.
 *
 * in: scenario; file, the log; of, the lamp and the spot it belongs to
 * out: the fit with the names it is of
 * throws: USAGE where lamp or spot are not told or not known; FILE_*, WEATHER_*, FIT_UNDETERMINED
 */
export async function fitLog(scenario: Scenario, file: NamedBytes, of: LogOf): Promise<LogReport> {
  const lamp = chosen('lamp', scenario.lamps, of.lamp);
  const spot = chosen('spot', scenario.spots, of.spot);
  const log = readCapacitorLog(file, lamp.params.capacitor.rated_V);
  const weather = await weatherOfDays(scenario);
  const light = spotLight(
    weather,
    scenario.site,
    spot.params,
    (name) => readScenarioFile(scenario, name).bytes,
  );
  const fit = serviceLog({ lamp: lamp.params, light, site: scenario.site, promise: scenario.promise }, log);
  return {
    scenario: scenario.name,
    lamp: lamp.name,
    spot: spot.name,
    log: file.name,
    keys: logKeys(lamp.settled, spot.section.shading?.factor ?? 1, fit),
    timeZone: scenario.site.timeZone,
    fit,
  };
}

/** The weather of a scenario; where its mapping is stated, of any length. */
async function weatherOfDays(scenario: Scenario): Promise<WeatherRecord | undefined> {
  const { weather, site } = scenario;
  if (weather === undefined || !isMapped(weather.section)) return loadWeather(scenario);
  return readWeather(readTextFile(weather.path, weather.section.file), weather.section, site);
}

function chosen<Item extends { name: string }>(
  kind: 'lamp' | 'spot',
  items: readonly Item[],
  wanted: string | undefined,
): Item {
  const found = wanted === undefined ? undefined : items.find(({ name }) => name === wanted);
  if (found !== undefined) return found;
  if (wanted === undefined && items.length === 1) return items[0]!;
  const names = items.map(({ name }) => name);
  const near = wanted === undefined ? undefined : nearestWord(wanted, names);
  throw new InputProblem({
    code: 'USAGE',
    file: 'command line',
    got: wanted === undefined ? `a log, and ${items.length} ${kind}s it may be of` : `--${kind} ${wanted}`,
    expected: `--${kind} and one of ${names.join(', ')}`,
    fix: `--${kind} ${near ?? names[0]}.`,
  });
}
