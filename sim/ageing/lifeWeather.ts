import { InputProblem } from '../common/InputProblem.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import { MadeLights } from '../trial/MadeLights.ts';
import { madeStart } from '../trial/MadeTrials.ts';
import { scenarioLights } from '../trial/scenarioLights.ts';
import { refuseLogged } from '../trial/scenarioOdds.ts';
import type { WinterBasis } from '../trial/WinterMaker.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import type { LifePremises } from './LifeTrials.ts';

/** What the winters of a life are run through. */
export interface LifeWeather extends Pick<LifePremises, 'lights' | 'start'> {
  /** In words. */
  words: string;
}

/** Made winters are all held in memory, by spot. */
export const MOST_MADE = 100;
export const FEWEST_MADE = 5;

const LEAST_H = 8760;

/**
 * The light of the spots by a record, over and over.
 *
 * in: scenario; weather, undefined where the light is logged on every cell; spots, their names
 * throws: WEATHER_PARTIAL_YEAR where a record lasts less than a year
 */
export function recordedLife(
  scenario: Scenario,
  weather: WeatherRecord | undefined,
  spots: readonly string[],
): LifeWeather {
  const known = scenarioLights(scenario, weather);
  const lights = new Map<string, readonly [SpotLight]>();
  for (const { name, params } of scenario.spots) {
    if (!spots.includes(name)) continue;
    const light = known.of(params);
    if (light.count < LEAST_H) throw tooShort(scenario, light.count, weather?.origin.file);
    lights.set(name, [light]);
  }
  const [first] = lights.values();
  const hours = (weather ?? first![0]).count;
  const years = Math.floor(hours / LEAST_H);
  return {
    lights,
    start: scenario.start,
    words:
      years === 1
        ? 'the one year on file, over and over'
        : `the ${years} years on file, every winter of a life through all of them`,
  };
}

/**
 * The light of the spots in winters that have not happened.
 *
 * in: scenario; basis, that they are made from; count, of them; spots, their names
 * out: the one whose light is the middle of all comes first: it is what wears the lamps
 * throws: as `winterMaker`; SCENARIO_CONFLICT where a light was logged on a cell
 */
export function madeLife(
  scenario: Scenario,
  basis: WinterBasis,
  count: number,
  spots: readonly string[],
): LifeWeather {
  refuseLogged(scenario);
  const madeLights = new MadeLights(scenario, basis, 0);
  const { maker } = madeLights;
  const made = Array.from({ length: count }, (_, index) => maker.weather(maker.ways[0]!, index, 0));
  made.sort((one, other) => total(one.ghi_W_m2) - total(other.ghi_W_m2));
  // The middle one first.
  made.unshift(...made.splice(count >> 1, 1));
  const lights = new Map<string, [SpotLight, ...SpotLight[]]>();
  for (const weather of made) {
    const known = madeLights.under(weather);
    for (const { name, params } of scenario.spots) {
      if (!spots.includes(name)) continue;
      const light = known.of(params);
      const all = lights.get(name);
      if (all === undefined) lights.set(name, [light]);
      else all.push(light);
    }
  }
  return {
    lights,
    start: madeStart(scenario.start),
    words: `${count} winters made from ${maker.words}`,
  };
}

function total(column: Float64Array): number {
  return column.reduce((sum, each) => sum + each, 0);
}

function tooShort({ file }: Scenario, hours: number, weather: string | undefined): InputProblem {
  return new InputProblem({
    code: 'WEATHER_PARTIAL_YEAR',
    file: weather ?? file,
    got: `${Math.floor(hours / 24)} days`,
    expected: 'a year at least: a lamp wears in its summers, and is judged by its winters',
    fix: 'take a record of a whole year (--weather FILE), or winters that are made (--winters 20).',
  });
}
