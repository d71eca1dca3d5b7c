import type { LampParams } from '../lamp/params.ts';
import type { Scenario, ScenarioLamp, ScenarioSource, ScenarioSpot } from '../scenario/Scenario.ts';
import { overWinters } from '../statistics/overWinters.ts';
import type { YearStart } from '../year/simulateYear.ts';
import { MadeLights } from './MadeLights.ts';
import { builtLamps } from './partTolerances.ts';
import { placedIn } from './runAll.ts';
import { runNights, type TrialTerms } from './runTrial.ts';
import type { NightTrial } from './Trial.ts';
import type { WinterBasis, WinterWay } from './WinterMaker.ts';

/** All that another thread needs to run made winters: it makes the scenario by itself. */
export interface WinterSetup {
  source: ScenarioSource;
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

/** A lamp that is run in a spot. */
export interface MadeTrial {
  spot: Pick<ScenarioSpot, 'name' | 'params'>;
  lamp: Pick<ScenarioLamp, 'name' | 'params'>;
}

/** Of each trial its winters; of built lamps each winter of all of them in turn. */
export type MadeBatch = MadeWinter[][];

/** Runs trials through made winters, nights alone: all that a thread keeps from job to job. */
export class MadeTrials {
  readonly lights: MadeLights;
  private readonly scenario: Scenario;
  private readonly builtLamps = new Map<string, LampParams[]>();

  /**
   * in: scenario; basis; kept, winters whose light is kept for the next job
   * throws: as `winterMaker`
   */
  constructor(scenario: Scenario, basis: WinterBasis, kept = 1) {
    this.scenario = scenario;
    this.lights = new MadeLights(scenario, basis, kept);
  }

  /**
   * in: job; trials, all of the scenario, spots first, unless given
   * out: the winters of every trial
   * throws: as `runNights`
   */
  run({ way, sample, from, to, built }: WinterJob, trials: readonly MadeTrial[] = this.stated()): MadeBatch {
    const batch: MadeBatch = trials.map(() => []);
    for (let index = from; index < to; index++) {
      const lights = this.lights.of(way, index, sample);
      trials.forEach(({ spot, lamp }, t) => {
        const light = lights.of(spot.params);
        const terms = this.terms(spot.name, lamp.name);
        for (const params of built === undefined ? [lamp.params] : this.builtOf(lamp, built))
          batch[t]!.push(madeWinter(placedIn(this.scenario, () => runNights(params, light, terms))));
      });
    }
    return batch;
  }

  private stated(): MadeTrial[] {
    const { spots, lamps } = this.scenario;
    return spots.flatMap((spot) => lamps.map((lamp) => ({ spot, lamp })));
  }

  private builtOf({ name, params }: MadeTrial['lamp'], count: number): LampParams[] {
    const known =
      this.builtLamps.get(name) ?? builtLamps(params, count, this.scenario.seed).map(({ lamp }) => lamp);
    this.builtLamps.set(name, known);
    return known;
  }

  private terms(spot: string, lamp: string): TrialTerms {
    const { site, promise, start, seed } = this.scenario;
    return { spot, lamp, site, promise, start: madeStart(start), seed };
  }
}

/** How a made winter begins: it is no cycle, its summer leads in. */
export function madeStart(start: YearStart): YearStart {
  return start === 'cyclic' ? 'lead-in' : start;
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
