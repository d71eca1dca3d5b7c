import { InputProblem } from '../common/InputProblem.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import { fileSource, readTextFile } from '../tables/TableSource.ts';
import type { ImportOptions } from '../weather/importWeather.ts';
import { isMapped } from '../weather/isMapped.ts';
import { ownRecord } from '../weather/normalForm.ts';
import { readWeather } from '../weather/readWeather.ts';
import type { WeatherValue } from '../weather/schema.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';

/** A weather file by its path, and the name the user gave it. */
interface WeatherFile {
  path: string;
  name: string;
}

/** What the user says of the weather beside the scenario; each wins over it. */
export interface WeatherWishes extends Omit<ImportOptions, 'constant_degC'> {
  /** Takes the place of the scenario's weather file, and is recognised. */
  files?: readonly WeatherFile[] | undefined;
}

/**
 * The weather of a scenario, whatever its layout: by the scenario's mapping where it has one, else recognised and
 * proved against the sun.
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
  const stated = scenario.weather;
  if (files === undefined) {
    if (stated === undefined || isMapped(stated.section)) {
      refuseIdle(said);
      return weatherOf(scenario);
    }
    const file = { path: stated.path, name: stated.section.file };
    return recognised(scenario, [file], { ...statedOptions(stated.section), ...said });
  }
  // Another file is laid out in its own way: of the scenario's weather only the air for hours without one is kept.
  const air = stated?.section.columns?.air_temperature?.constant_degC;
  return recognised(scenario, files, { ...(air === undefined ? {} : { constant_degC: air }), ...said });
}

/** What is typed for each. */
const OPTION_OF = {
  place: '--place',
  zone: '--zone',
  marks: '--marks',
  believe: '--believe',
  acceptFilled: '--accept-filled',
  columns: '--column',
  units: '--unit',
  station: '--station',
  from_ms: '--from',
  to_ms: '--to',
} as const satisfies Partial<Record<keyof WeatherWishes, string>>;

/** What is said of a file that is recognised moves nothing where the scenario's own mapping reads it. */
function refuseIdle(said: WeatherWishes): void {
  const idle = Object.keys(said).flatMap((wish) => OPTION_OF[wish as keyof typeof OPTION_OF] ?? []);
  if (idle.length === 0) return;
  throw new InputProblem({
    code: 'USAGE',
    file: 'command line',
    got: `${idle.join(', ')} with a scenario that states stamp and columns of its weather itself`,
    expected: 'these beside --weather FILE, or with a scenario that leaves its file to be recognised',
    fix: 'change weather.stamp in the scenario, or take weather.stamp and weather.columns away.',
  });
}

async function recognised(
  scenario: Scenario,
  files: readonly WeatherFile[],
  options: ImportOptions,
): Promise<WeatherRecord> {
  const sources = files.map(({ path, name }) => fileSource(path, name));
  // A record this tool wrote was proved then, and is taken as it stands; one with holes is understood anew.
  const own = ownRecord(sources)?.record;
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

function statedOptions(section: WeatherValue): ImportOptions {
  const { stamp, columns = {}, zone, marks, believe, accept_filled } = section;
  const of = <Key extends 'column' | 'unit'>(key: Key) =>
    Object.fromEntries(
      Object.entries(columns).flatMap(([quantity, choice]) =>
        choice?.[key] === undefined ? [] : [[quantity, choice[key]]],
      ),
    );
  return {
    zone: zone ?? stamp?.zone,
    marks: marks ?? stamp?.marks,
    believe,
    acceptFilled: accept_filled,
    constant_degC: columns.air_temperature?.constant_degC,
    columns: of('column'),
    units: of('unit'),
  };
}

/**
 * The weather a scenario names, read by the mapping that the scenario states. For a file that is to be recognised use loadWeather.
 *
 * in: scenario
 * out: the record; undefined where the scenario names none
 * throws: FILE_*, WEATHER_*, SCENARIO_MISSING_KEY where the scenario states no mapping
 */
export function weatherOf(scenario: Scenario): WeatherRecord | undefined {
  if (scenario.weather === undefined) return undefined;
  const { section, path } = scenario.weather;
  return readWeather(readTextFile(path, section.file), section, scenario.site);
}
