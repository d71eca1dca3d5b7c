import type { NightCause } from '../night/nightLedger.ts';
import type { Verdict } from '../statistics/TrialStatistics.ts';
import type { LeanOutcome } from '../trial/LeanTrials.ts';
import type { Design } from './Design.ts';
import type { CannotBeCounted } from './DesignTrials.ts';

/** What a lamp comes to in its spot, over the whole winters of the record, or the parts where none is whole. */
export interface Outcome {
  nights: number;
  winters: number;
  /** Winters without a failed night. */
  keptWinters: number;
  failedNights: number;
  short_h: number;
  /** Light given a winter, all nights of its year. */
  light_lm_h: number;
  /** Energy above the cut-off at the worst dawn; negative below it. */
  smallestReserve_J: number;
}

/** A design, and what it comes to. */
export interface SizedDesign extends Outcome {
  design: Design;
}

/** A design that is recommended, run whole with its hours: the same numbers as `run` gives of it. */
export interface Recommended extends SizedDesign {
  /** With all generic parts at the poor end of what is sold; null where no such lamp can be; undefined where it has none. */
  withPoorParts: LeanOutcome | null | undefined;
  margin: {
    smallestReserve_J: number;
    /** One winter of weather is no sample: nothing of it is a margin. */
    oneYearOnly: boolean;
  };
  verdict: Verdict;
  /** Sentences a maker must see, as of a run. */
  flags: readonly string[];
}

/** Where nothing keeps the promise, what comes nearest. */
export interface Nearest extends Recommended {
  /** What its failed nights come from, most first. */
  inTheWay: readonly { cause: NightCause; nights: number }[];
}

/** A step from one design of the front to the next that fails fewer nights. */
export interface SizingStep {
  from: SizedDesign;
  to: SizedDesign;
  /** Money. */
  adds: number;
  /** Failed nights fewer. */
  mends: number;
}

/** What can be said of all designs of a space. */
export interface SizingAnswer {
  /** One spot, or undefined where the spot is a choice. */
  spot: string | undefined;
  designs: {
    all: number;
    /** Lamps that cannot be, or cannot be followed, as far as it showed. */
    cannotBe: readonly CannotBeCounted[];
    ran: number;
    /** Known not to be an answer without a whole run. */
    ruledOut: number;
    fromCache: number;
  };
  /** All that were run whole, by their index. */
  sized: readonly SizedDesign[];
  present: SizedDesign | undefined;
  /** Keeps the promise: every night, or in the share of winters that was asked for. */
  cheapest: Recommended | undefined;
  /** Where nothing keeps it: fewest failed nights, then short hours, then price. */
  nearest: Nearest | undefined;
  /** Most light within the budget among those that keep it. */
  brightest: Recommended | undefined;
  /** Fewest changed keys, then price, among those that keep it. */
  leastChange: Recommended | undefined;
  /** By price: nothing has less of price and failed nights, and more light. */
  front: readonly SizedDesign[];
  /** Along those of the front with fewer failed nights than all that cost less. */
  steps: readonly SizingStep[];
  /** Two of the cheapest, which share one drawer (no price where a second of something has none), and the cheapest single lamp that gives at least as much light as both and keeps the promise. */
  oneOrTwo:
    | { two: { price: number | undefined; light_lm_h: number }; one: SizedDesign | undefined }
    | undefined;
  /** Of a search that was interrupted: designs settled, of all. */
  partial?: { settled: number; all: number };
}
