import type { Scenario } from '../scenario/Scenario.ts';
import { type SkyCalendar, skyCalendar } from '../spot/sky/SkyCalendar.ts';
import { openSky } from '../spot/sky/skyColumns.ts';
import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import type { SpotLights } from './SpotLights.ts';
import { scenarioLights } from './scenarioLights.ts';
import { type WinterBasis, type WinterMaker, type WinterWay, winterMaker } from './WinterMaker.ts';

/** The light of a scenario's spots in made winters, that of the last ones kept. */
export class MadeLights {
  readonly maker: WinterMaker;
  private readonly scenario: Scenario;
  private readonly calendar: SkyCalendar;
  private readonly kept: number;
  private readonly known = new Map<string, SpotLights>();
  private last: SpotLights | undefined;

  /**
   * in: scenario; basis; kept, winters whose light is kept at once
   * throws: as `winterMaker`
   */
  constructor(scenario: Scenario, basis: WinterBasis, kept: number) {
    this.scenario = scenario;
    this.kept = kept;
    this.maker = winterMaker(basis);
    this.calendar = skyCalendar({ ...this.maker.frame.sun, sun: this.maker.frame.sun }, scenario.site);
  }

  /** in: way, index and sample, as of `WinterMaker.weather` */
  of(way: WinterWay, index: number, sample: number): SpotLights {
    const key = `${way} ${index} ${sample}`;
    const lights = this.known.get(key) ?? this.under(this.maker.weather(way, index, sample));
    // The longest unused first.
    this.known.delete(key);
    this.known.set(key, lights);
    const [oldest] = this.known.keys();
    if (this.known.size > this.kept) this.known.delete(oldest!);
    return lights;
  }

  /** in: weather, a made winter */
  under(weather: WeatherRecord): SpotLights {
    const sky = openSky(weather, this.calendar);
    this.last = this.last?.under(weather, sky) ?? scenarioLights(this.scenario, weather, sky);
    return this.last;
  }
}
