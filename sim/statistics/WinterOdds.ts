import { greatest, least } from 'd3-array';
import { errorFunction, mean, median } from 'simple-statistics';
import { bisect, square } from '../common/numeric.ts';
import type { WinterStatistics } from './TrialStatistics.ts';

/** A chance with its interval. */
export interface Chance {
  /** 0 to 1, as low and high. */
  share: number;
  low: number;
  high: number;
  /** Winters it was counted over, or as many as leave as much doubt. */
  winters: number;
  confidence: 0.9;
  /** How the interval was made. */
  method: string;
}

/** One quantity over several winters. */
export interface OverSample {
  mean: number;
  /** The median. */
  typical: number;
  best: number;
  worst: number;
  /** One winter in ten is worse; only from ten winters on. */
  worstInTen?: number;
}

/** What several winters of a trial come to as a sample. */
export interface WinterOdds {
  /** Whole ones, and those whose dark months are. */
  winters: number;
  /** Winters in which every night was kept. */
  kept: number;
  /** That a winter keeps the promise. */
  chance: Chance;
  failedNights: OverSample;
  short_h: OverSample;
  /** Names: the one nearest to the typical failed nights, and those with most and fewest; ties by short hours, then the earlier. */
  typicalWinter: string;
  worstWinter: string;
  bestWinter: string;
}

/** What of a winter its odds rest on. */
export type CountedWinter = Pick<
  WinterStatistics,
  'winter' | 'complete' | 'nights' | 'failedNights' | 'short_h'
>;

const CONFIDENCE = 0.9;
/** A share of one in ten needs ten to be seen in. */
const LEAST_FOR_TENTH = 10;

/**
 * Several winters as a sample of what winters do. One winter is no sample: what happened in it is no chance.
 *
 * in: all, the winters of a trial; part winters, and those in which nothing is promised, are left out
 * out: undefined below two winters
 * source: Wilson1927 for the interval; HyndmanFan1996, definition 6, for the worst in ten (the next winter passes it with
 *   a chance of one in ten, however few they are)
 */
export function winterOdds(all: readonly CountedWinter[]): WinterOdds | undefined {
  const winters = all.filter(({ complete, nights }) => complete && nights > 0);
  const count = winters.length;
  if (count < 2) return undefined;
  const kept = winters.filter(({ failedNights }) => failedNights === 0).length;
  const failedNights = overSample(winters.map((winter) => winter.failedNights));
  const short_h = overSample(winters.map((winter) => winter.short_h));
  const off = (winter: CountedWinter) => Math.abs(winter.failedNights - failedNights.typical);
  const offShort = (winter: CountedWinter) => Math.abs(winter.short_h - short_h.typical);
  const typical = least(winters, (a, b) => off(a) - off(b) || offShort(a) - offShort(b))!;
  const byFailed = (a: CountedWinter, b: CountedWinter) =>
    a.failedNights - b.failedNights || a.short_h - b.short_h;
  return {
    winters: count,
    kept,
    chance: {
      share: kept / count,
      ...wilson(kept, count, CONFIDENCE),
      winters: count,
      confidence: CONFIDENCE,
      method: 'Wilson',
    },
    failedNights,
    short_h,
    typicalWinter: typical.winter,
    worstWinter: greatest(winters, byFailed)!.winter,
    bestWinter: least(winters, byFailed)!.winter,
  };
}

function overSample(values: number[]): OverSample {
  const sorted = values.sort((a, b) => a - b);
  const tenth = worstInTen(sorted);
  return {
    mean: mean(sorted),
    typical: median(sorted),
    best: sorted[0]!,
    worst: sorted.at(-1)!,
    ...(tenth === undefined ? {} : { worstInTen: tenth }),
  };
}

/** The value that one in ten passes, between the two of the sample around it; undefined below ten. */
function worstInTen(sorted: readonly number[]): number | undefined {
  if (sorted.length < LEAST_FOR_TENTH) return undefined;
  const place = 0.9 * (sorted.length + 1) - 1;
  const below = Math.floor(place);
  const [low, high] = [sorted[below]!, sorted[below + 1] ?? sorted[below]!];
  return low + (place - below) * (high - low);
}

/**
 * Wilson's interval of a share that was counted: at least 0, at most 1, and of use where none or all were counted.
 *
 * in: kept, 0 to winters; winters, above 0, need not be a whole number; confidence, 0 to below 1, of both sides together
 * out: low and high, 0 to 1
 * throws: Error outside of these
 * source: Wilson1927
 * @example wilson(0, 20, 0.95).low; // => 0
 */
export function wilson(kept: number, winters: number, confidence: number): Record<'low' | 'high', number> {
  if (!(winters > 0 && kept >= 0 && kept <= winters && confidence >= 0 && confidence < 1))
    throw new Error(`no interval of ${kept} in ${winters} at ${confidence}`);
  // z, standard errors to either side that hold the confidence.
  const z = bisect((errors) => errorFunction(errors / Math.SQRT2) - confidence, 0, 8) ?? 0;
  const share = kept / winters;
  const scale = 1 / (1 + (z * z) / winters);
  const middle = scale * (share + (z * z) / (2 * winters));
  const half = scale * z * Math.sqrt((share * (1 - share)) / winters + square(z / (2 * winters)));
  return {
    low: kept === 0 ? 0 : Math.max(0, middle - half),
    high: kept === winters ? 1 : Math.min(1, middle + half),
  };
}
