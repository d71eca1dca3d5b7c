import { InputProblem, type ValueProblem } from '../common/InputProblem.ts';
import { checkLamp } from '../lamp/checkLamp.ts';
import { type LampParams, lampParams } from '../lamp/params.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import type { SpotParams } from '../spot/spotParams.ts';
import { overWinters } from '../statistics/overWinters.ts';
import { runNights, runTrial, type TrialTerms } from '../trial/runTrial.ts';
import type { SpotLights } from '../trial/SpotLights.ts';
import type { HourlyTrial, NightTrial } from '../trial/Trial.ts';
import { lightAndBrushed } from '../trial/wholeTrial.ts';
import type { Design, SpotVariant } from './Design.ts';
import type { DesignSpace } from './DesignSpace.ts';
import type { SearchedSpace } from './designAt.ts';
import type { Outcome } from './SizedDesign.ts';

/** Why a design is no lamp. */
export interface CannotBe {
  /** The same of all that it is the same with. */
  reason: string;
  why: string;
}

/** Designs that are no lamps for one reason, in the words of the first of them. */
export interface CannotBeCounted {
  why: string;
  count: number;
}

/** Gives the light of spots. */
interface LightsOf {
  of(spot: SpotParams): SpotLight;
}

/** Lamps that are kept: a megabyte for some thirty that were run. */
const MOST_LAMPS = 2048;

/** The lamps that parts make, by what is left of their designs' index without the spot, and those that cannot be. */
export type KnownLamps = Map<number, LampParams | CannotBe>;

/** Runs the designs of a space in the light of their spots. */
export class DesignTrials<Space extends SearchedSpace = SearchedSpace, Lights extends LightsOf = LightsOf> {
  readonly space: Space;
  readonly lights: Lights;
  private readonly lamps: KnownLamps;

  /** in: space; lights; lamps of the same parts, where some are known from another spot or other weather */
  constructor(space: Space, lights: Lights, lamps: KnownLamps = new Map()) {
    this.space = space;
    this.lights = lights;
    this.lamps = lamps;
  }

  /** throws: InputProblem for files that cannot be read */
  light({ params }: SpotVariant): SpotLight {
    return this.lights.of(params);
  }

  /** The lamp of a design, as a scenario would check it. */
  lamp(design: Design): LampParams | CannotBe {
    const { count, spots } = this.space;
    const number = design.index % (count / spots.length);
    const known = this.lamps.get(number);
    if (known !== undefined) return known;
    const made = this.lampOf(design.settled);
    // None makes room for another: designs are gone through in one order again and again.
    if (design.index >= 0 && this.lamps.size < MOST_LAMPS) this.lamps.set(number, made);
    return made;
  }

  /** A lamp of other parts than any design's. */
  lampOf(settled: Design['settled']): LampParams | CannotBe {
    const { start } = this.space.scenario;
    const problems: ValueProblem[] = [];
    const lamp = lampParams(settled, (problem) => problems.push(problem));
    if (lamp !== undefined)
      checkLamp(
        lamp,
        (problem) => problems.push(problem),
        typeof start === 'string' ? undefined : start.capacitor_V,
      );
    const [first] = problems;
    if (first === undefined && lamp !== undefined) return lamp;
    return cannotBe(first?.code, first?.path.join('.'), first?.expected);
  }

  /** What a design comes to, by its nights alone. */
  outcome(design: Design, lamp: LampParams): Outcome | CannotBe {
    try {
      return outcomeOf(runNights(lamp, this.light(design.spot), this.terms(design)));
    } catch (error) {
      if (!(error instanceof InputProblem)) throw error;
      return cannotBeFor(error);
    }
  }

  /** A design run whole, with hours and ledger, as `run` does. throws: InputProblem as `runTrial` */
  whole(design: Design, lamp: LampParams): HourlyTrial {
    const { light, brushed } = lightAndBrushed(design.spot.params, this.lights);
    const trial = runTrial(lamp, light, this.terms(design), brushed);
    return { ...trial, flags: [...checkLamp(lamp, () => {}), ...trial.flags] };
  }

  private terms({ spot }: Design): TrialTerms {
    const { site, promise, start, seed } = this.space.scenario;
    return { spot: spot.name, lamp: 'design', site, promise, start, seed };
  }
}

/** With all that a scenario says of its designs, and light for spots that they are tried in beside their own. */
export type SpaceTrials = DesignTrials<DesignSpace, SpotLights>;

/** What a trial comes to over its winters. */
export function outcomeOf({ statistics }: Pick<NightTrial, 'statistics'>): Outcome {
  const over = overWinters(statistics.winters);
  return {
    nights: over.nights,
    winters: over.winters.length,
    keptWinters: over.winters.filter(({ nights, failedNights }) => nights > 0 && failedNights === 0).length,
    failedNights: over.failedNights,
    short_h: over.short_h,
    light_lm_h: over.lightGiven_lm_h / over.winters.length,
    smallestReserve_J: over.smallestReserve_J,
  };
}

/** A lamp that a run refuses. */
export function cannotBeFor({ problems }: InputProblem): CannotBe {
  const [{ code, field, expected }] = problems as [InputProblem['problems'][number]];
  return cannotBe(code, field?.replace(/^lamps\.[^.]*\./, ''), expected);
}

function cannotBe(code = 'SCENARIO_CONFLICT', key = '', expected = 'parts that fit together'): CannotBe {
  return { reason: `${code} ${key}`, why: expected };
}

/** Why designs are no lamps. in: found, by their index */
export function countedReasons(found: ReadonlyMap<number, CannotBe>): CannotBeCounted[] {
  const counts = new Map<string, CannotBeCounted>();
  for (const [, { reason, why }] of [...found].sort(([a], [b]) => a - b)) {
    const known = counts.get(reason) ?? { why, count: 0 };
    counts.set(reason, { ...known, count: known.count + 1 });
  }
  return [...counts.values()];
}
