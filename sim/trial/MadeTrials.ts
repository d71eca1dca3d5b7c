import type { LampParams } from '../lamp/params.ts';
import type { Scenario, ScenarioLamp } from '../scenario/Scenario.ts';
import { type SkyCalendar, skyCalendar } from '../spot/sky/SkyCalendar.ts';
import { openSky } from '../spot/sky/skyColumns.ts';
import { overWinters } from '../statistics/overWinters.ts';
import { builtLamps } from './partTolerances.ts';
import { placedIn } from './runAll.ts';
import { runNights, type TrialTerms } from './runTrial.ts';
import type { SpotLights } from './SpotLights.ts';
import { scenarioLights } from './scenarioLights.ts';
import type { NightTrial } from './Trial.ts';
import { type WinterBasis, type WinterMaker, type WinterWay, winterMaker } from './WinterMaker.ts';

/** All that another thread needs to run made winters: it loads the scenario by itself. */
export interface WinterSetup {
  /** Path of the scenario's file, and its name in messages. */
  path: string;
  file: string;
  basis: WinterBasis;
}

/** Winters that are made and run in one go: indices `from` up to but without `to` of a way, of a sample of the winters learned. */
export interface WinterJob {
  way: WinterWay;
  sample: number;
  from: number;
  to: number;
  /** Lamps built within the tolerances of their parts that are run in place of each lamp; the lamp as stated unless given. */
  built?: number;
}

/** What one made winter came to in one trial. */
export interface MadeWinter {
  nights: number;
  failedNights: number;
  short_h: number;
  out_h: number;
  longestSpell: number;
  smallestReserve_J: number;
  lightGiven_lm_h: number;
  /** Nights that failed, counted from the first of the season. */
  failed: number[];
}

/** Of each trial of a scenario, spots first, its winters; of built lamps each winter of all of them in turn. */
export type MadeBatch = MadeWinter[][];

/** Runs the trials of a scenario through made winters, nights alone: all that a thread keeps from job to job. */
export class MadeTrials {
  readonly maker: WinterMaker;
  private readonly scenario: Scenario;
  private readonly calendar: SkyCalendar;
  private lights: SpotLights | undefined;
  private readonly builtLamps = new Map<string, LampParams[]>();

  /** throws: as `winterMaker` */
  constructor(scenario: Scenario, basis: WinterBasis) {
    this.scenario = scenario;
    this.maker = winterMaker(basis);
    this.calendar = skyCalendar({ ...this.maker.frame.sun, sun: this.maker.frame.sun }, scenario.site);
  }

  /**
   * in: job
   * out: the winters of every trial
   * throws: as `runNights`
   */
  run({ way, sample, from, to, built }: WinterJob): MadeBatch {
    const { spots, lamps } = this.scenario;
    const batch: MadeBatch = spots.flatMap(() => lamps.map(() => []));
    for (let index = from; index < to; index++) {
      const weather = this.maker.weather(way, index, sample);
      const sky = openSky(weather, this.calendar);
      this.lights = this.lights?.under(weather, sky) ?? scenarioLights(this.scenario, weather, sky);
      spots.forEach((spot, s) => {
        const light = this.lights!.of(spot.params);
        lamps.forEach((lamp, l) => {
          const terms = this.terms(spot.name, lamp.name);
          for (const params of built === undefined ? [lamp.params] : this.builtOf(lamp, built))
            batch[s * lamps.length + l]!.push(
              madeWinter(placedIn(this.scenario, () => runNights(params, light, terms))),
            );
        });
      });
    }
    return batch;
  }

  private builtOf({ name, params }: ScenarioLamp, count: number): LampParams[] {
    const known =
      this.builtLamps.get(name) ?? builtLamps(params, count, this.scenario.seed).map(({ lamp }) => lamp);
    this.builtLamps.set(name, known);
    return known;
  }

  private terms(spot: string, lamp: string): TrialTerms {
    const { site, promise, start, seed } = this.scenario;
    // A made winter is no cycle: its summer leads in.
    return { spot, lamp, site, promise, start: start === 'cyclic' ? 'lead-in' : start, seed };
  }
}

function madeWinter({ nights, statistics }: NightTrial): MadeWinter {
  const over = overWinters(statistics.winters);
  const rows = nights.filter(({ winter }) => winter === over.winters[0]!.winter);
  return {
    nights: over.nights,
    failedNights: over.failedNights,
    short_h: over.short_h,
    out_h: over.out_h,
    longestSpell: over.longestSpell?.nights ?? 0,
    smallestReserve_J: over.smallestReserve_J,
    lightGiven_lm_h: over.lightGiven_lm_h,
    failed: rows.flatMap(({ outcome }, n) => (outcome === 'failed' ? [n] : [])),
  };
}
