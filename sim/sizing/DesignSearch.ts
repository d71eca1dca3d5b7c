import type { WeatherRecord } from '../weather/WeatherRecord.ts';
import type { Design } from './Design.ts';
import { type Bounds, DesignBounds } from './DesignBounds.ts';
import { type DesignSpace, designAt } from './DesignSpace.ts';
import { type CannotBe, DesignTrials } from './DesignTrials.ts';
import type { Outcome } from './SizedDesign.ts';
import { type Best, type SizingTerms, type Standing, Standings } from './Standings.ts';

/** Designs looked at one after the other, and what is known before the first. */
export interface SearchJob {
  indices: readonly number[];
  best: Best;
}

/** What became of a design: run whole, no lamp, or known by bounds not to be part of the answer. */
export type Settled = { index: number } & (
  | { outcome: Outcome }
  | { cannotBe: CannotBe }
  | { bounds: Bounds }
);

/** Looks at designs of a space: all that a thread keeps from job to job. */
export class DesignSearch {
  private readonly trials: DesignTrials;
  private readonly bounds: DesignBounds;
  private readonly terms: SizingTerms;

  /** in: space; weather; terms, what is asked of them */
  constructor(space: DesignSpace, weather: WeatherRecord | undefined, terms: SizingTerms) {
    this.trials = new DesignTrials(space, weather);
    this.bounds = new DesignBounds(this.trials);
    this.terms = terms;
  }

  /**
   * Runs those of the designs whole that may be part of the answer.
   * throws: InputProblem for files that cannot be read
   */
  run({ indices, best }: SearchJob): Settled[] {
    const standings = new Standings(this.terms, best);
    return indices.map((index) => {
      const settled = this.settle(designAt(this.trials.space, index), standings);
      return { index, ...settled };
    });
  }

  private settle(design: Design, standings: Standings) {
    const lamp = this.trials.lamp(design);
    if ('why' in lamp) return { cannotBe: lamp };
    for (const bound of ['still', 'tried'] as const) {
      const bounds = this.bounds[bound](design, lamp);
      if (!standings.mayAnswer(standingOf(design, { short_h: 0, ...bounds }))) return { bounds };
    }
    const outcome = this.trials.outcome(design, lamp);
    if ('why' in outcome) return { cannotBe: outcome };
    standings.add(standingOf(design, outcome));
    return { outcome };
  }
}

/** A design with what it came to, or what it can come to at best, beside the others. */
export function standingOf(
  { index, price, changed }: Pick<Design, 'index' | 'price' | 'changed'>,
  outcome: Omit<Standing, 'index' | 'price' | 'changed'>,
): Standing {
  const { winters, keptWinters, failedNights, short_h, light_lm_h } = outcome;
  return {
    index,
    price: price!,
    changed: changed.length,
    winters,
    keptWinters,
    failedNights,
    short_h,
    light_lm_h,
  };
}
