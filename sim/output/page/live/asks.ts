import type { Refused, Turn } from '../../../trial/live/LiveRun.ts';
import type { CloserHours } from '../closerHours.ts';
import type { TrialBlock } from '../trialBlocks.ts';

/** A trial of the page's run, and what is turned of it; nothing: as the file has it. */
export interface Tried {
  /** In the run, from 1. */
  place: number;
  turns: readonly Turn[];
}

/** Blocks of a trial's part of the page, as they are with what is turned. */
export type Blocks = readonly { block: TrialBlock; markup: string }[];

/** What a worker answers, by what the page asks of it. */
export interface Answers {
  /**
   * What follows the hand: the answer's block, the picture of the nights without its data, the outcome at a glance for
   * the panel, and in words to be spoken.
   */
  hand: { answer: string; nights: string; glance: string; outcome: string };
  /** What a pause of the hand has time for: what must be noted, the nights with their data, where the energy went. */
  pause: Blocks;
  /** The other blocks, and what would mend the trial. */
  rest: Blocks;
  /** All its part of the page, which was written without. */
  part: string;
  hours: CloserHours;
  /** A scenario with what is turned, which the command line runs to the same nights, and a name for its file. */
  scenario: { yaml: string; file: string };
}

export interface Ask<Kind extends keyof Answers> {
  kind: Kind;
  tried: Tried;
}

export type Answer<Kind extends keyof Answers> = Answers[Kind] | Refused;
