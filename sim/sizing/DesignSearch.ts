import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import { type Bounds, DesignBounds } from './DesignBounds.ts';
import { type DesignSpace, designAt } from './DesignSpace.ts';
import { type CannotBe, DesignTrials } from './DesignTrials.ts';
import type { Outcome } from './SizedDesign.ts';

/** Designs of which bounds are wanted, or what a whole run of them comes to. */
export interface SearchJob {
  wanted: 'bounds' | 'outcome';
  indices: readonly number[];
}

/** What is known of a design: what it comes to, bounds of that, or why it is no lamp. */
export type Known = Outcome | Bounds | CannotBe;

/** Looks at designs of a space: all that a thread keeps from job to job. */
export class DesignSearch {
  private readonly trials: DesignTrials;
  private readonly bounds: DesignBounds;

  constructor(space: DesignSpace, weather: WeatherRecord | undefined) {
    this.trials = new DesignTrials(space, weather);
    this.bounds = new DesignBounds(this.trials);
  }

  /**
   * in: job
   * out: of each of its designs, in their order
   * throws: InputProblem for files that cannot be read
   */
  run({ wanted, indices }: SearchJob): Known[] {
    return indices.map((index) => {
      const design = designAt(this.trials.space, index);
      const lamp = this.trials.lamp(design);
      if ('why' in lamp) return lamp;
      return wanted === 'bounds' ? this.bounds.of(design, lamp) : this.trials.outcome(design, lamp);
    });
  }
}
