import type { LampSection, SettledSection } from '../lamp/schema.ts';
import type { Scenario, ScenarioLamp, ScenarioSpot } from '../scenario/Scenario.ts';
import { readScenarioFile } from '../scenario/scenarioFile.ts';
import type { SpotSection } from '../spot/schema.ts';
import { skyCalendar } from '../spot/sky/SkyCalendar.ts';
import { type OpenSky, openSky } from '../spot/sky/skyColumns.ts';
import { type SpotLight, spotLight } from '../spot/spotLight.ts';
import { spotParams } from '../spot/spotParams.ts';
import { overWinters } from '../statistics/overWinters.ts';
import type { Site } from '../sun/Site.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import { runNights, soundNights, type TrialTerms } from './runTrial.ts';
import type { NightTrial } from './Trial.ts';

/** What a trial rests on and may be otherwise. */
export interface Premises {
  /** That of the scenario, but for the albedo. */
  site: Site;
  lamp: SettledSection;
  /** The same lamp with its readings. */
  section: LampSection;
  spot: SpotSection;
  /** Degrees by which all that stands around is higher than stated. */
  skylineOff_deg: number;
  /** Diffuse light beyond what the split of the global light says, as a share of the global. */
  diffuseOff: number;
}

/** What a trial comes to. */
export interface LeanOutcome {
  nights: number;
  failedNights: number;
  short_h: number;
}

/**
 * The trials of a scenario run for their nights alone, on what it states or on other premises. Sky and light are kept for
 * premises that share them.
 */
export class LeanTrials {
  readonly weather: WeatherRecord | undefined;
  readonly #scenario: Scenario;
  #sky: OpenSky | undefined;
  readonly #lights = new Map<string, SpotLight | undefined>();

  /** in: scenario; weather, undefined where the light is logged on every cell */
  constructor(scenario: Scenario, weather: WeatherRecord | undefined) {
    this.#scenario = scenario;
    this.weather = weather;
  }

  /** What a trial rests on as the scenario states it. */
  premises(spot: ScenarioSpot, lamp: ScenarioLamp): Premises {
    const { site } = this.#scenario;
    return {
      site,
      lamp: lamp.settled,
      section: lamp.section,
      spot: spot.section,
      skylineOff_deg: 0,
      diffuseOff: 0,
    };
  }

  /**
   * A trial as the scenario states it.
   * throws: InputProblem for files that cannot be read, and as `runNights`
   */
  asStated(spot: ScenarioSpot, lamp: ScenarioLamp): LeanOutcome {
    const light = this.#lightOf(this.premises(spot, lamp))!;
    return outcomeOf(runNights(lamp.params, light, this.#terms(spot.name, lamp.name)));
  }

  /** A trial on other premises; undefined where no such lamp or spot can be. */
  outcome(premises: Premises): LeanOutcome | undefined {
    const light = this.#lightOf(premises);
    const trial = light && soundNights(premises.lamp, light, this.#terms('tried', 'tried'));
    return trial && outcomeOf(trial);
  }

  #terms(spot: string, lamp: string): TrialTerms {
    const { site, promise, start, seed } = this.#scenario;
    return { spot, lamp, site, promise, start, seed };
  }

  #lightOf({ lamp: _lamp, section: _section, ...premises }: Premises): SpotLight | undefined {
    const key = JSON.stringify(premises);
    if (!this.#lights.has(key)) {
      // What the scenario states comes first and stays; of what is tried, only the last.
      if (this.#lights.size > this.#scenario.spots.length)
        this.#lights.delete([...this.#lights.keys()].at(-1)!);
      this.#lights.set(key, this.#newLight(premises));
    }
    return this.#lights.get(key);
  }

  #newLight({
    site,
    spot,
    skylineOff_deg,
    diffuseOff,
  }: Omit<Premises, 'lamp' | 'section'>): SpotLight | undefined {
    const params = spotParams(spot, () => {});
    if (params === undefined) return undefined;
    const tried = skylineOff_deg === 0 ? params : { ...params, skylineOff_deg };
    const sky = this.weather && this.#skyOf(this.weather, site, diffuseOff);
    const readFile = (file: string) => readScenarioFile(this.#scenario, file).bytes;
    return spotLight(this.weather, site, tried, readFile, sky);
  }

  #skyOf(weather: WeatherRecord, site: Site, diffuseOff: number): OpenSky {
    const stated = this.#scenario.site;
    this.#sky ??= openSky(weather, skyCalendar(weather, stated));
    if (diffuseOff === 0 && site === stated) return this.#sky;
    const { sky, calendar } = this.#sky;
    const dhi_W_m2 = sky.dhi_W_m2.map((dhi, i) => {
      const ghi = sky.ghi_W_m2[i]!;
      return Math.min(ghi, Math.max(0, dhi + diffuseOff * ghi));
    });
    return openSky(diffuseOff === 0 ? weather : { ...weather, dhi_W_m2 }, { ...calendar, site });
  }
}

function outcomeOf({ statistics }: NightTrial): LeanOutcome {
  const { nights, failedNights, short_h } = overWinters(statistics.winters);
  return { nights, failedNights, short_h };
}
