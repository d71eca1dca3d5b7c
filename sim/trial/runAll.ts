import { createHash } from 'node:crypto';
import type { Scenario } from '../scenario/Scenario.ts';
import { readScenarioFile } from '../scenario/scenarioFile.ts';
import { skyCalendar } from '../spot/sky/SkyCalendar.ts';
import { openSky } from '../spot/sky/skyColumns.ts';
import { type SpotLight, spotLight } from '../spot/spotLight.ts';
import type { ReadFile, SpotParams } from '../spot/spotParams.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import { changes } from './changes.ts';
import { weatherOf } from './loadWeather.ts';
import { runTrial } from './runTrial.ts';
import { CAUTIONS, type RunResult, type Trial } from './Trial.ts';

export interface RunOptions {
  /** The weather, already loaded (loadWeather); else the scenario's file is read by the scenario's own mapping. */
  weather?: WeatherRecord | undefined;
  /** Called after every trial. */
  onTrial?: (done: number, all: number) => void;
  /** Whether failing trials are run again with single changes; true unless stated. */
  withChanges?: boolean;
  /** Error of the capacitor's voltage allowed in one step, volts. */
  tolerance_V?: number;
}

/**
 * Every lamp of a scenario in every spot. Sun and sky are made once, the light of a spot once for all its lamps, that of
 * a changed spot once for all lamps it is tried with.
 *
 * in: scenario, as loadScenario gives it; options
 * out: trials in the order of the scenario, spots first
 * throws: InputProblem for files that cannot be read or are not whole years
 */
export function runAll(scenario: Scenario, options: RunOptions = {}): RunResult {
  const weather = options.weather ?? weatherOf(scenario);
  const sky = weather && openSky(weather, skyCalendar(weather, scenario.site));
  const onceEach = (known?: ReadonlyMap<string, SpotLight>) => {
    const lights = new Map(known);
    const lightOf = (spot: SpotParams) => {
      const key = digest([scenario.site, weather?.origin.sha256 ?? '', spot]);
      const light = lights.get(key) ?? spotLight(weather, scenario.site, spot, readFile(scenario), sky);
      lights.set(key, light);
      return light;
    };
    return { lights, lightOf };
  };
  const { lights, lightOf } = onceEach();
  const trials: Trial[] = [];
  const all = scenario.spots.length * scenario.lamps.length;
  for (const spot of scenario.spots) {
    const light = lightOf(spot.params);
    const changed = onceEach(lights);
    const elsewhere = scenario.spots.filter((other) => other !== spot);
    for (const lamp of scenario.lamps) {
      const terms = {
        spot: spot.name,
        lamp: lamp.name,
        site: scenario.site,
        promise: scenario.promise,
        start: scenario.start,
        tolerance_V: options.tolerance_V,
      };
      const trial = runTrial(lamp.params, light, terms);
      const stated = { lamp: lamp.settled, spot: spot.section, promise: scenario.promise };
      const wanted = options.withChanges !== false && trial.statistics.verdict === 'broken';
      trials.push({
        ...trial,
        flags: [...lamp.flags, ...trial.flags],
        changes: wanted ? changes(trial, { stated, terms, elsewhere, lightOf: changed.lightOf }) : [],
      });
      options.onTrial?.(trials.length, all);
    }
  }
  return {
    scenario,
    weather: weatherSummary(weather, trials[0]!.light),
    record: weather,
    trials,
    assumptions: scenario.assumptions,
    cautions: [...CAUTIONS],
  };
}

function readFile(scenario: Scenario): ReadFile {
  return (file) => readScenarioFile(scenario, file).bytes;
}

function weatherSummary(weather: WeatherRecord | undefined, light: SpotLight): RunResult['weather'] {
  const first_utc = new Date(light.start_ms).toISOString().replace('.000Z', 'Z');
  const logged = { sha256: '', filledHours: 0, options: { light: 'logged on the cell' } };
  const { sha256, filledHours, options } = weather?.origin ?? logged;
  return { sha256, first_utc, hours: (weather ?? light).count, filled_hours: filledHours, options };
}

function digest(value: unknown): string {
  return createHash('sha256').update(JSON.stringify(value)).digest('hex');
}
