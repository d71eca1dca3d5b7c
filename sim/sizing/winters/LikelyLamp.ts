import type { TrialOdds } from '../../trial/odds.ts';
import type { Design } from '../Design.ts';
import type { CannotBeCounted } from '../DesignTrials.ts';

/** A design, and what made winters say of it. */
export interface LikelyDesign {
  design: Design;
  /** The same as `run --winters` gives of it. */
  odds: TrialOdds;
  /** Made winters that fail. */
  failed: number;
  /** Index of the made winter whose failed nights are nearest to the median. */
  typicalWinter: number;
}

/** A design that is recommended. */
export interface LikelyLamp extends LikelyDesign {
  /** Made winters that may fail before the lower end of its chance is below the share, its doubt the same; less than `failed` where it is below. */
  mayFail: number;
  /** With all generic parts at the poor end of what is sold; null where no such lamp can be; undefined where it has none. */
  withPoorParts: TrialOdds | null | undefined;
  /** Sentences a maker must see, as of a run through the typical made winter. */
  flags: readonly string[];
}

/** What made winters say of all designs of a space. */
export interface LikelyAnswer {
  /** One spot, or undefined where the spot is a choice. */
  spot: string | undefined;
  designs: {
    all: number;
    cannotBe: readonly CannotBeCounted[];
    /** Run through every made winter, and the climates learned again. */
    whole: number;
    /** Out of reach before that; of these without a single run. */
    ruledOut: number;
    withoutRun: number;
    /** Not looked at, since they cost more than the answer. */
    dearer: number;
  };
  /** Runs of a design through a winter. */
  runs: number;
  /** The lamp as it is; undefined where it cannot be. */
  present: LikelyDesign | undefined;
  /** The lower end of its chance reaches the share for least money; of those for the same money the likeliest. */
  cheapest: LikelyLamp | undefined;
  /** Where none does: fewest failed winters, then least money; undefined where none keeps a single one. */
  nearest: LikelyLamp | undefined;
  /** Of a search that was interrupted: designs settled, of all, and the cheapest that is not. */
  partial?: { settled: number; all: number; open: OpenDesign | undefined };
}

/** A design of which not all is known yet. */
export interface OpenDesign {
  design: Design;
  /** Made winters looked at, the darkest first, and those of them that it fails for sure. */
  looked: number;
  failed: number;
}

/** Whether one is the better answer: less money, then a higher lower end of the chance, then fewer failed nights, then the one before. */
export function isBetter(one: LikelyDesign, other: LikelyDesign): boolean {
  const difference =
    one.design.price! - other.design.price! ||
    other.odds.keeps.low - one.odds.keeps.low ||
    one.odds.failedNights.mean - other.odds.failedNights.mean ||
    one.design.index - other.design.index;
  return difference < 0;
}
