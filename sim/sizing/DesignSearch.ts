import type { SpotLight } from '../spot/spotLight.ts';
import type { SpotParams } from '../spot/spotParams.ts';
import { type Bounds, DesignBounds } from './DesignBounds.ts';
import { type CannotBe, DesignTrials, type KnownLamps } from './DesignTrials.ts';
import { designAt, type SearchedSpace } from './designAt.ts';
import type { Outcome } from './SizedDesign.ts';

/** All that a thread needs to look at designs: plain data. */
export interface SearchSetup {
  spaces: readonly SearchedSpace[];
  /** By the parameters of their spots: these objects themselves. */
  lights: ReadonlyMap<SpotParams, SpotLight>;
}

/** Designs of a space of which bounds are wanted, or what a whole run of them comes to. */
export interface SearchJob {
  wanted: 'bounds' | 'outcome';
  /** Its number among the spaces. */
  space: number;
  indices: readonly number[];
}

/** What is known of a design: what it comes to, bounds of that, or why it is no lamp. */
export type Known = Outcome | Bounds | CannotBe;

/** Looks at designs of spaces: all that a thread keeps from job to job. */
export class DesignSearch {
  private readonly of: readonly { trials: DesignTrials; bounds: DesignBounds }[];

  constructor({ spaces, lights }: SearchSetup) {
    const known = { of: (spot: SpotParams) => lights.get(spot)! };
    const lamps = new Map(spaces.map(({ parts }): [object, KnownLamps] => [parts, new Map()]));
    this.of = spaces.map((space) => {
      const trials = new DesignTrials(space, known, lamps.get(space.parts));
      return { trials, bounds: new DesignBounds(trials) };
    });
  }

  /**
   * in: job
   * out: of each of its designs, in their order
   */
  run({ wanted, space, indices }: SearchJob): Known[] {
    const { trials, bounds } = this.of[space]!;
    return indices.map((index) => {
      const design = designAt(trials.space, index);
      const lamp = trials.lamp(design);
      if ('why' in lamp) return lamp;
      return wanted === 'bounds' ? bounds.of(design, lamp) : trials.outcome(design, lamp);
    });
  }
}
