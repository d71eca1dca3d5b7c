import type { PromiseSection } from '../lamp/schedule/schema.ts';
import type { LampSection, SettledSection } from '../lamp/schema.ts';
import type { Scenario, ScenarioLamp, ScenarioSpot } from '../scenario/Scenario.ts';
import type { SpotSection } from '../spot/schema.ts';
import { openSky } from '../spot/sky/skyColumns.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import { spotParams } from '../spot/spotParams.ts';
import { overWinters } from '../statistics/overWinters.ts';
import type { Site } from '../sun/Site.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import { runNights, soundNights, type TrialTerms } from './runTrial.ts';
import type { SpotLights } from './SpotLights.ts';
import { scenarioLights } from './scenarioLights.ts';
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
  promise: PromiseSection;
  /** Share of all light on the cell that is left to it: a shade the same at all hours, or above 1 more than there is. */
  lightShare: number;
}

/** What a trial comes to. */
export interface LeanOutcome {
  nights: number;
  failedNights: number;
  short_h: number;
}

/**
 * The trials of a scenario run for their nights alone, on what it states or on other premises. The light of its spots is
 * kept, of what is tried only the last: the lamps in a spot follow each other.
 */
export class LeanTrials {
  private readonly weather: WeatherRecord | undefined;
  private readonly scenario: Scenario;
  private readonly stated: SpotLights;
  private tried: { key: string; light: SpotLight } | undefined;

  /** in: scenario; weather, undefined where the light is logged on every cell; lights of its spots, where they are known */
  constructor(
    scenario: Scenario,
    weather: WeatherRecord | undefined,
    lights = scenarioLights(scenario, weather),
  ) {
    this.scenario = scenario;
    this.weather = weather;
    this.stated = lights;
  }

  /** What a trial rests on as the scenario states it. */
  premises(spot: ScenarioSpot, lamp: ScenarioLamp): Premises {
    const { site, promise } = this.scenario;
    return {
      site,
      promise,
      lamp: lamp.settled,
      section: lamp.section,
      spot: spot.section,
      skylineOff_deg: 0,
      diffuseOff: 0,
      lightShare: 1,
    };
  }

  /**
   * A trial as the scenario states it.
   * throws: InputProblem for files that cannot be read, and as `runNights`
   */
  asStated(spot: ScenarioSpot, lamp: ScenarioLamp): LeanOutcome {
    const premises = this.premises(spot, lamp);
    return outcomeOf(
      runNights(lamp.params, this.lightOf(premises)!, this.terms(premises, spot.name, lamp.name)),
    );
  }

  /** A trial on other premises; undefined where no such lamp or spot can be. */
  outcome(premises: Premises): LeanOutcome | undefined {
    const light = this.lightOf(premises);
    const trial = light && soundNights(premises.lamp, light, this.terms(premises, 'tried', 'tried'));
    return trial && outcomeOf(trial);
  }

  private terms({ promise }: Premises, spot: string, lamp: string): TrialTerms {
    const { site, start, seed } = this.scenario;
    return { spot, lamp, site, promise, start, seed };
  }

  private lightOf(premises: Premises): SpotLight | undefined {
    const light = this.unshaded(premises);
    return light && premises.lightShare !== 1 ? shaded(light, premises.lightShare) : light;
  }

  private unshaded({ site, spot, skylineOff_deg, diffuseOff }: Premises): SpotLight | undefined {
    const params = spotParams(spot, () => {});
    if (params === undefined) return undefined;
    const own = skylineOff_deg === 0 ? params : { ...params, skylineOff_deg };
    const underStated = diffuseOff === 0 && site === this.scenario.site;
    if (underStated && own === params && this.scenario.spots.some(({ section }) => section === spot))
      return this.stated.of(params);
    const key = JSON.stringify([site, own, diffuseOff]);
    if (this.tried?.key !== key) {
      const lights = underStated ? this.stated.branch() : this.lightsUnder(site, diffuseOff);
      this.tried = { key, light: lights.of(own) };
    }
    return this.tried.light;
  }

  /** Where the ground or the split of the global light is another. */
  private lightsUnder(site: Site, diffuseOff: number): SpotLights {
    const { scenario, weather, stated } = this;
    if (weather === undefined || stated.sky === undefined) return stated.branch();
    const { sky, calendar } = stated.sky;
    const dhi_W_m2 = sky.dhi_W_m2.map((dhi, i) => {
      const ghi = sky.ghi_W_m2[i]!;
      return Math.min(ghi, Math.max(0, dhi + diffuseOff * ghi));
    });
    const changed = diffuseOff === 0 ? weather : { ...weather, dhi_W_m2 };
    return scenarioLights(scenario, weather, openSky(changed, { ...calendar, site }));
  }
}

/** The light of a spot with the same share of it left at all hours, as a shading factor of the spot would. */
function shaded(light: SpotLight, share: number): SpotLight {
  const left = (column: Float64Array) => column.map((each) => share * each);
  return {
    ...light,
    beam_W_m2: left(light.beam_W_m2),
    sky_W_m2: left(light.sky_W_m2),
    reflected_W_m2: left(light.reflected_W_m2),
    planeOfArray_W_m2: left(light.planeOfArray_W_m2),
  };
}

function outcomeOf({ statistics }: NightTrial): LeanOutcome {
  const { nights, failedNights, short_h } = overWinters(statistics.winters);
  return { nights, failedNights, short_h };
}
