import { createHash } from 'node:crypto';
import type { Scenario } from '../scenario/Scenario.ts';
import { readScenarioFile } from '../scenario/scenarioFile.ts';
import { type SpotPlace, spotPlace } from '../spot/SpotPlace.ts';
import { skyCalendar } from '../spot/sky/SkyCalendar.ts';
import { type OpenSky, openSky } from '../spot/sky/skyColumns.ts';
import { lightInSpot, type SpotLight, spotLight } from '../spot/spotLight.ts';
import type { SpotParams } from '../spot/spotParams.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';

/**
 * The light of a scenario's spots under one weather record, each made once: sun and sky for all of them, place and
 * obstacles for those that only dirt or snow on the lid tell apart.
 */
export class SpotLights {
  private readonly scenario: Scenario;
  private readonly weather: WeatherRecord | undefined;
  readonly sky: OpenSky | undefined;
  private readonly lights = new Map<string, SpotLight>();
  private readonly places = new Map<string, SpotPlace>();

  /** in: scenario; weather, undefined where all light was logged on the cells; sky, over that weather unless another is tried */
  constructor(
    scenario: Scenario,
    weather: WeatherRecord | undefined,
    sky = weather && openSky(weather, skyCalendar(weather, scenario.site)),
  ) {
    this.scenario = scenario;
    this.weather = weather;
    this.sky = sky;
  }

  /**
   * The light of a spot.
   * throws: as `spotLight`
   */
  of(spot: SpotParams): SpotLight {
    return kept(this.lights, spot, () => this.made(spot));
  }

  /** Knows all that this one knows, and keeps to itself what it makes. */
  branch(): SpotLights {
    const branch: SpotLights = Object.create(SpotLights.prototype);
    return Object.assign(branch, this, { lights: new Map(this.lights), places: new Map(this.places) });
  }

  /** The same spots under other weather of the same hours: places and obstacles stay as they are. */
  under(weather: WeatherRecord, sky: OpenSky): SpotLights {
    return Object.assign(this.branch(), { weather, sky, lights: new Map() });
  }

  private made(spot: SpotParams): SpotLight {
    const { sky, scenario } = this;
    const readFile = (file: string) => readScenarioFile(scenario, file).bytes;
    if (sky === undefined || spot.loggedLight !== undefined)
      return spotLight(this.weather, scenario.site, spot, readFile, sky);
    const bare = { ...spot, dirtLoss: 0, snow: { ...spot.snow, on_lid: false } };
    const place = kept(this.places, bare, () => spotPlace(spot, sky.calendar, readFile));
    return lightInSpot({ ...place, spot }, sky);
  }
}

function kept<Value>(known: Map<string, Value>, spot: SpotParams, make: () => Value): Value {
  const key = createHash('sha256').update(JSON.stringify(spot)).digest('hex');
  const value = known.get(key) ?? make();
  known.set(key, value);
  return value;
}
