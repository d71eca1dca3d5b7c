import { resolve } from 'node:path';
import { HOUR_MS, utcText } from '../../common/time.ts';
import { type LampFits, readingFlags } from '../../lamp/settleLamp.ts';
import { dropReplaced } from '../../scenario/resolveScenario.ts';
import type { Scenario, ScenarioLamp, ScenarioSpot } from '../../scenario/Scenario.ts';
import { publicName, scenarioFileIfThere } from '../../scenario/scenarioFile.ts';
import type { SpotLight } from '../../spot/spotLight.ts';
import type { WeatherRecord } from '../../weather/WeatherRecord.ts';
import { scenarioSpotFiles } from '../scenarioLights.ts';
import type { RunResult } from '../Trial.ts';
import type { Keys, LiveLamp, LiveRun, LiveSpot } from './LiveRun.ts';

/** A longer record makes a page heavy, and each turn slow. */
const MOST_YEARS = 3;

/**
 * What it takes to run the trials of a run again, somewhere without files.
 *
 * in: run, of one trial at least
 * out: plain data without an absolute path; or how much of its record is too much, in words
 * throws: as `readSpotFiles`
 */
export function liveRunOf(run: RunResult): LiveRun | { tooLong: string } {
  const { scenario, record, trials } = run;
  const { start_ms, count } = trials[0]!.light;
  const years = count / (366 * 24);
  if (years > MOST_YEARS) {
    return {
      tooLong: `a record of ${(count / (365.25 * 24)).toFixed(0)} years, and no more than ${MOST_YEARS} go into a page: for one of which the values can be turned, run some of its winters alone (--from, --to)`,
    };
  }
  const { name, site, promise, start, seed, currency, resolved } = scenario;
  const names = new FileNames(scenario);
  return {
    name,
    site,
    promise,
    start,
    seed,
    currency,
    weather: record && weatherOf(record),
    spots: scenario.spots.map((spot) => spotOf(spot, trials, scenario, names)),
    lamps: scenario.lamps.map(lampOf),
    resolved,
    weatherWords: `${count} hours from ${utcText(start_ms)} to ${utcText(start_ms + count * HOUR_MS)}${record === undefined ? '' : `, of ${publicName(record.origin.file)}`}`,
    rootedFiles: rootedFiles(scenario),
  };
}

/** The columns that light is made from; the sun over them is made again. */
function weatherOf({ sun: _sun, wind_m_s: _wind, ...record }: WeatherRecord): WeatherRecord {
  const { origin } = record;
  return { ...record, origin: { ...origin, file: publicName(origin.file) } };
}

function spotOf(
  { name, section, params }: ScenarioSpot,
  trials: readonly { spot: string; light: SpotLight }[],
  scenario: Scenario,
  names: FileNames,
): LiveSpot {
  const snow = trials.find(({ spot }) => spot === name)?.light.snow;
  return {
    name,
    section: names.within(section),
    files: scenarioSpotFiles(scenario, params),
    snowFalls: snow !== undefined && snow.lid_h + snow.ground_h > 0,
  };
}

/** What files are called where no path from the root may stand: one name a file. */
class FileNames {
  private readonly folder: string;
  private readonly paths = new Map<string, string>();

  constructor({ folder }: { folder: string }) {
    this.folder = folder;
  }

  /** The same section with these names. */
  within<Section>(section: Section): Section {
    const named = JSON.stringify(section, (key, value) =>
      key === 'file' && typeof value === 'string' ? this.nameOf(value) : value,
    );
    return JSON.parse(named);
  }

  private nameOf(file: string): string {
    const path = resolve(this.folder, file);
    let name = publicName(file);
    for (let n = 2; (this.paths.get(name) ?? path) !== path; n++) name = `${publicName(file)} (${n})`;
    this.paths.set(name, path);
    return name;
  }
}

function lampOf({ name, section, settled, fits }: ScenarioLamp): LiveLamp {
  const { price, price_per_F } = section.capacitor;
  const farads = price_per_F === undefined ? undefined : { price, price_per_F };
  const read = (Object.keys(fits) as (keyof LampFits)[]).filter((part) => fits[part] !== undefined);
  const none: LampFits = {
    cell: undefined,
    diode: undefined,
    capacitor: undefined,
    driver: undefined,
    led: undefined,
    jar: undefined,
  };
  const ofEach = <Made>(make: (part: keyof LampFits) => Made) =>
    Object.fromEntries(read.map((part) => [part, make(part)]));
  return {
    name,
    settled,
    farads,
    readingFlags: ofEach((part) => readingFlags({ ...none, [part]: fits[part] })),
    unread: ofEach((part): Keys => {
      const keys = JSON.parse(
        JSON.stringify({ ...settled[part], ...(part === 'capacitor' ? farads : undefined) }),
      );
      dropReplaced(part, keys);
      return keys;
    }),
  };
}

/** Keys of files that a scenario names by a path from the root. */
function rootedFiles(scenario: Scenario): string[] {
  const { weather, spots, resolved, folder } = scenario;
  const keys: string[] = [];
  if (weather !== undefined && resolve(folder, weather.section.file) !== weather.path)
    keys.push('weather.file');
  for (const { name, section } of spots) {
    for (const [key, value] of Object.entries(section)) {
      const { file } = Object(value) as { file?: unknown };
      if (typeof file === 'string' && publicName(file) !== file) keys.push(`spots.${name}.${key}.file`);
    }
  }
  const { file: parts } = Object(resolved.parts) as { file?: string };
  if (parts !== undefined && scenarioFileIfThere(scenario, parts) === undefined) keys.push('parts.file');
  return keys;
}
