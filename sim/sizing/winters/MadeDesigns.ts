import { InputProblem } from '../../common/InputProblem.ts';
import type { LampParams } from '../../lamp/params.ts';
import type { Scenario } from '../../scenario/Scenario.ts';
import { spotParams } from '../../spot/spotParams.ts';
import { LeanTrials } from '../../trial/LeanTrials.ts';
import {
  type MadeTrial,
  MadeTrials,
  type MadeWinter,
  madeStart,
  type WinterJob,
} from '../../trial/MadeTrials.ts';
import { genericEnds } from '../../trial/partEnds.ts';
import type { WinterBasis, WinterWay } from '../../trial/WinterMaker.ts';
import type { NightStretch } from '../../year/simulateYear.ts';
import { aloneIn } from '../aloneIn.ts';
import type { Design } from '../Design.ts';
import { DesignBounds } from '../DesignBounds.ts';
import { type DesignSpace, presentDesign } from '../DesignSpace.ts';
import {
  type CannotBe,
  cannotBeFor,
  DesignTrials,
  type KnownLamps,
  type SpaceTrials,
} from '../DesignTrials.ts';
import { designAt } from '../designAt.ts';

/** A design of a space, -1 the present lamp, as stated or with its generic parts at the poor end of what is sold. */
export interface DesignNamed {
  index: number;
  poor?: true;
}

/** How dark winters are; whether designs fail in one, by bounds or by a run; all winters of one job of their odds. */
export type MadeDesignsJob =
  | { wanted: 'darkness'; way: WinterWay; from: number; to: number }
  | {
      wanted: 'bounds' | 'run';
      space: number;
      way: WinterWay;
      winter: number;
      indices: readonly number[];
    }
  | { wanted: 'odds'; space: number; job: WinterJob; designs: readonly DesignNamed[] };

/**
 * Of each winter its least light in weeks on end, the less the darker; of each design whether it fails, by bounds only
 * where that is sure; of each design its winters; or why it is no lamp.
 */
export type MadeDesignsFound = readonly (number | boolean | MadeWinter[] | CannotBe | undefined)[];

/** Winters whose light is kept: some 50 MB with two spots. */
const KEPT_WINTERS = 32;
const DARK_WEEKS_H = 4 * 7 * 24;
const DARK_NIGHTS = 150;

/** Looks at designs of spaces in made winters: all that a thread keeps from job to job. */
export class MadeDesigns {
  private readonly spaces: readonly DesignSpace[];
  private readonly made: MadeTrials;
  private readonly lamps: ReadonlyMap<DesignSpace['parts'], KnownLamps>;

  /** in: spaces, of one scenario; basis. throws: as `winterMaker` */
  constructor(spaces: readonly DesignSpace[], basis: WinterBasis) {
    this.made = new MadeTrials(spaces[0]!.scenario, basis, KEPT_WINTERS);
    this.spaces = spaces.map((space) => ({ ...space, scenario: startingSo(space.scenario) }));
    this.lamps = new Map(this.spaces.map(({ parts }) => [parts, new Map()]));
  }

  run(job: MadeDesignsJob): MadeDesignsFound {
    if (job.wanted === 'darkness') return this.darkness(job);
    const space = this.spaces[job.space]!;
    if (job.wanted === 'odds') return job.designs.map((named) => this.winters(space, named, job.job));
    const trials = this.trialsOf(space, job.way, job.winter, 0);
    const bounds = job.wanted === 'bounds' ? new DesignBounds(trials, this.darkNights(job)) : undefined;
    return job.indices.map((index) => {
      const design = designAt(space, index);
      const lamp = trials.lamp(design);
      if ('why' in lamp) return lamp;
      const known = bounds?.of(design, lamp) ?? trials.outcome(design, lamp);
      return 'why' in known ? known : known.failedNights > 0;
    });
  }

  /** What a maker must see of a design, as of a run through a made winter. */
  flags(space: number, design: Design, winter: number): readonly string[] {
    const { ways } = this.made.lights.maker;
    const trials = this.trialsOf(this.spaces[space]!, ways[0]!, winter, 0);
    const lamp = trials.lamp(design);
    return 'why' in lamp ? [] : trials.whole(design, lamp).flags;
  }

  private darkness({ way, from, to }: { way: WinterWay; from: number; to: number }): number[] {
    const { maker } = this.made.lights;
    return Array.from({ length: to - from }, (_, k) => darkestWeeks(maker.weather(way, from + k, 0)).light);
  }

  /** Nights that bounds look at: what fails at all fails there. */
  private darkNights({ way, winter }: { way: WinterWay; winter: number }): NightStretch {
    const sky = this.made.lights.of(way, winter, 0).sky!;
    const middle = darkestWeeks(sky.sky).middleDay;
    return { first: middle - DARK_NIGHTS / 2, end: middle + DARK_NIGHTS / 2 };
  }

  private trialsOf(space: DesignSpace, way: WinterWay, winter: number, sample: number): SpaceTrials {
    return new DesignTrials(space, this.made.lights.of(way, winter, sample), this.lamps.get(space.parts));
  }

  private winters(
    space: DesignSpace,
    { index, poor }: DesignNamed,
    job: WinterJob,
  ): MadeWinter[] | CannotBe | undefined {
    const design = index < 0 ? presentDesign(space, space.spots[0]!.name) : designAt(space, index);
    const trials = this.trialsOf(space, job.way, job.from, job.sample);
    const placed = poor ? poorTrial(space, design, trials) : statedTrial(space, design, trials);
    if (placed === undefined || 'why' in placed) return placed;
    try {
      return this.made.run(job, [placed])[0]!;
    } catch (error) {
      if (!(error instanceof InputProblem)) throw error;
      return cannotBeFor(error);
    }
  }
}

/** The four weeks of a winter with least light, and how much that is. */
function darkestWeeks({ ghi_W_m2 }: { ghi_W_m2: Float64Array }): { light: number; middleDay: number } {
  let running = 0;
  const darkest = { light: Number.POSITIVE_INFINITY, middleDay: 0 };
  ghi_W_m2.forEach((ghi, hour) => {
    running += ghi - (ghi_W_m2[hour - DARK_WEEKS_H] ?? 0);
    if (hour < DARK_WEEKS_H || running >= darkest.light) return;
    darkest.light = running;
    darkest.middleDay = Math.round((hour - DARK_WEEKS_H / 2) / 24);
  });
  return darkest;
}

function startingSo(scenario: Scenario): Scenario {
  return { ...scenario, start: madeStart(scenario.start) };
}

function statedTrial({ present }: DesignSpace, design: Design, trials: SpaceTrials): MadeTrial | CannotBe {
  const params = trials.lamp(design);
  return 'why' in params ? params : { spot: design.spot, lamp: { name: present.name, params } };
}

/** out: undefined of a design without a generic part */
function poorTrial(
  { scenario, present }: DesignSpace,
  design: Design,
  trials: SpaceTrials,
): MadeTrial | CannotBe | undefined {
  const alone = aloneIn(scenario, design);
  const [spot] = alone.spots as [(typeof alone.spots)[0]];
  const [lamp] = alone.lamps as [(typeof alone.lamps)[0]];
  const stated = new LeanTrials(alone, undefined, trials.lights).premises(spot, lamp);
  const poor = genericEnds(alone)(0, stated, spot, lamp);
  if (poor === undefined) return undefined;
  const params: LampParams | CannotBe = trials.lampOf(poor.lamp);
  const place = spotParams(poor.spot, () => {});
  if ('why' in params) return params;
  if (place === undefined) return { reason: 'spot', why: 'a spot that can be' };
  return { spot: { name: spot.name, params: place }, lamp: { name: present.name, params } };
}
