import { mean, median, quantile, variance } from 'simple-statistics';
import { type Chance, wilson } from '../statistics/WinterOdds.ts';
import type { LampBatch } from './lampBatch.ts';
import type { MadeWinter } from './MadeTrials.ts';
import type { WinterWay } from './WinterMaker.ts';

/** What made winters say of one trial. */
export interface TrialOdds {
  spot: string;
  lamp: string;
  /** Winters made and run. */
  winters: number;
  /** That a winter keeps the promise every night. */
  keeps: Chance;
  failedNights: WinterFigures;
  short_h: WinterFigures;
  /** Nights failed in a row in the worst winter of ten. */
  longestSpell: number;
  /** For each night of the season, from 1 July (1 January in the south), the share of winters in which it fails. */
  failingShare: number[];
  /** What another way of making winters says; undefined where there is none. */
  secondOpinion: { way: WinterWay; keeps: number; failedNights: number } | undefined;
  /** Lamps built within the tolerances of their parts, where a batch was asked for. */
  batch?: LampBatch | undefined;
  /** Share of the doubt about the chance that more made winters would not take away. */
  learningShare: number;
}

/** A figure of a winter over many. */
export interface WinterFigures {
  mean: number;
  /** Nine intervals of ten that are made so hold the mean of the place. */
  meanLow: number;
  meanHigh: number;
  typical: number;
  /** Exceeded in one winter of ten. */
  worstInTen: number;
  best: number;
  worst: number;
}

const Z_90 = 1.6449;
/**
 * Between counting the winters on file and knowing all: what a climate learned from them is worth, in as many winters that
 * are counted, at least and at most. Tuned on made climates (test/climate/coverage.slow.test.ts).
 */
const WORTH_OF_A_WINTER = { least: 1, most: 3 };

/**
 * Odds of one trial.
 *
 * in: made, its winters; samples, those of climates learned again, without which what was learned is worth the winters on
 *   file and no more; learned, winters on file; nights of a season
 */
export function oddsOf(
  made: readonly MadeWinter[],
  samples: readonly (readonly MadeWinter[])[],
  learned: number,
  nights: number,
): Omit<TrialOdds, 'spot' | 'lamp' | 'secondOpinion'> {
  const keeps = chanceOf(made, samples, learned);
  const failing = new Array<number>(nights).fill(0);
  for (const { failed } of made) for (const n of failed) if (n < nights) failing[n]!++;
  return {
    winters: made.length,
    keeps,
    failedNights: figures(made, samples, learned, ({ failedNights }) => failedNights),
    short_h: figures(made, samples, learned, ({ short_h }) => short_h),
    longestSpell: quantile(
      made.map(({ longestSpell }) => longestSpell),
      0.9,
    ),
    failingShare: failing.map((count) => count / made.length),
    learningShare: 1 - keeps.winters / made.length,
  };
}

/** What is known before a winter is run: how many are made, and what they are learned from. */
export interface WinterGrounds {
  made: number;
  learnedWinters: number;
  learnsAgain: boolean;
}

/**
 * The highest lower end that the chance of a trial can have, as in `oddsOf`, where so many of its made winters fail.
 *
 * in: failed, winters; grounds
 */
export function highestLow(failed: number, grounds: WinterGrounds): number {
  const { made } = grounds;
  const worth = mostWorth(grounds);
  return wilson(((made - failed) / made) * worth, worth, 0.9).low;
}

/** In as many winters that are counted, what made ones can be worth. */
function mostWorth({ made, learnedWinters, learnsAgain }: WinterGrounds): number {
  return Math.min(made, WORTH_OF_A_WINTER[learnsAgain ? 'most' : 'least'] * learnedWinters);
}

/** Share of made winters without a failed night. */
export function keptShare(made: readonly MadeWinter[]): number {
  return mean(made.map(isKept));
}

/**
 * Odds that hold two beliefs about one place: the ends of the intervals of both.
 *
 * in: odds, by the first; made, the winters of the other; learned, winters that each is worth
 */
export function heldBoth<Odds extends Pick<TrialOdds, 'keeps' | 'failedNights' | 'short_h'>>(
  odds: Odds,
  made: readonly MadeWinter[],
  learned: number,
): Odds {
  const other = oddsOf(made, [], learned, 0);
  const { keeps } = odds;
  const both = (figures: WinterFigures, { meanLow, meanHigh }: WinterFigures): WinterFigures => ({
    ...figures,
    meanLow: Math.min(figures.meanLow, meanLow),
    meanHigh: Math.max(figures.meanHigh, meanHigh),
  });
  return {
    ...odds,
    keeps: {
      ...keeps,
      low: Math.min(keeps.low, other.keeps.low),
      high: Math.max(keeps.high, other.keeps.high),
      method: 'Wilson, of both distributions',
    },
    failedNights: both(odds.failedNights, other.failedNights),
    short_h: both(odds.short_h, other.short_h),
  };
}

/**
 * A chance by Wilson's interval of as many winters as would leave its variance, within what those learned from are worth;
 * near 0 or 1 a bootstrap alone sees too little.
 */
function chanceOf(
  made: readonly MadeWinter[],
  samples: readonly (readonly MadeWinter[])[],
  learned: number,
): Chance {
  const { least, most } = WORTH_OF_A_WINTER;
  const share = keptShare(made);
  const counted = share * (1 - share);
  const spread = counted / made.length + (learningVariance(samples, isKept) ?? 0);
  const known = spread > 0 ? counted / spread : Number.POSITIVE_INFINITY;
  const worth = samples.length < LEAST_SAMPLES ? least * learned : Math.min(most * learned, known);
  const winters = Math.min(made.length, Math.max(least * learned, worth));
  const { low, high } = wilson(share * winters, winters, 0.9);
  return { share, low, high, winters, confidence: 0.9, method: 'Wilson' };
}

function isKept({ failedNights }: MadeWinter): number {
  return Number(failedNights === 0);
}

/**
 * Winters drawn with repetition are fewer different ones, so that climates learned from them differ more than ten winters
 * would: on made climates by this share of the variance (test/climate/coverage.slow.test.ts), real ones left some room.
 */
const OF_BOOTSTRAP = 0.75;

/** Climates learned again that tell how far they differ. */
const LEAST_SAMPLES = 2;

/**
 * Variance that learning leaves: that between climates learned again, less what the drawing of their winters makes of it;
 * undefined where too few were.
 */
function learningVariance(
  samples: readonly (readonly MadeWinter[])[],
  of: (winter: MadeWinter) => number,
): number | undefined {
  if (samples.length < LEAST_SAMPLES) return undefined;
  const values = samples.map((sample) => sample.map(of));
  const between = (variance(values.map(mean)) * samples.length) / (samples.length - 1);
  const within = mean(values.map((some) => variance(some) / (some.length - 1)));
  return OF_BOOTSTRAP * Math.max(0, between - within);
}

function figures(
  made: readonly MadeWinter[],
  samples: readonly (readonly MadeWinter[])[],
  learned: number,
  of: (winter: MadeWinter) => number,
): WinterFigures {
  const values = made.map(of);
  const middle = mean(values);
  const drawing = values.length < 2 ? 0 : variance(values) / (values.length - 1);
  const learning = learningVariance(samples, of) ?? variance(values) / (WORTH_OF_A_WINTER.least * learned);
  const off = Z_90 * Math.sqrt(drawing + learning);
  return {
    mean: middle,
    meanLow: Math.max(0, middle - off),
    meanHigh: middle + off,
    typical: median(values),
    worstInTen: quantile(values, 0.9),
    best: Math.min(...values),
    worst: Math.max(...values),
  };
}
