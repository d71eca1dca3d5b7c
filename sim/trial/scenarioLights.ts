import type { Scenario } from '../scenario/Scenario.ts';
import { readScenarioFile } from '../scenario/scenarioFile.ts';
import { readSpotFiles } from '../spot/readSpotFiles.ts';
import type { SpotFiles } from '../spot/SpotFiles.ts';
import type { OpenSky } from '../spot/sky/skyColumns.ts';
import type { SpotParams } from '../spot/spotParams.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import { SpotLights } from './SpotLights.ts';

/** The light of a scenario's spots under one weather record. in: as `SpotLights` takes them */
export function scenarioLights(
  scenario: Scenario,
  weather: WeatherRecord | undefined,
  sky?: OpenSky,
): SpotLights {
  return new SpotLights(scenario.site, weather, (spot) => scenarioSpotFiles(scenario, spot), sky);
}

/**
 * What the files say that a spot of a scenario names.
 * throws: as `readSpotFiles`
 */
export function scenarioSpotFiles(scenario: { folder: string }, spot: SpotParams): SpotFiles {
  return readSpotFiles(spot, (file) => readScenarioFile(scenario, file).bytes);
}
