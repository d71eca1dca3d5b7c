import { exp, expm1 } from '../common/elementary/exp.ts';
import { log1p } from '../common/elementary/log.ts';
import { power } from '../common/elementary/power.ts';
import { bisect } from '../common/numeric.ts';

/** How the clearness of a month's days spreads over the years. */
export interface ClearnessDistribution {
  /** Clearness index of the dullest day. */
  lowest: number;
  /** Clearness index of the brightest day. */
  highest: number;
  /** Exponent of the density, per unit of clearness. */
  slope: number;
  /** Share of days duller than a clearness: 0 below the lowest, 1 above the highest. */
  shareDuller(clearness: number): number;
  /** Clearness that a share of the days, 0 to 1, stays below: the inverse of `shareDuller`. */
  clearnessAt(share: number): number;
}

/** Clearness of the dullest day of an ordinary month: the lower end of the first distribution (Bendt1981). */
const DULLEST_CLEARNESS = 0.05;
/** Of a month duller than any in print the dullest day lies at half the mean: an assumption, to leave room below it. */
const DULLEST_OF_MEAN = 0.5;
/** Mean below which the brightest day of a month is that of this one; its formula leaves its range there. */
const DULLEST_MONTH = 0.15;

/** Spread times slope below which the exponential is taken as flat, its limit. */
const NEARLY_FLAT = 1e-6;

/** Steepest exponential looked for: a mean within 1/5000 of the span from one end. */
const STEEPEST = 5000;

/**
 * Clearness index of the brightest day of a month, from the month's mean clearness (no unit).
 *
 * in: meanClearness, monthly mean of the daily clearness index
 * out: clearness index
 * valid: mean 0.15 to 0.75; below 0.15 that of 0.15
 * source: HollandsHuget1983, as printed in DuffieBeckman2020 eq. 2.9.6
 */
export function highestClearness(meanClearness: number): number {
  const mean = Math.max(meanClearness, DULLEST_MONTH);
  return 0.6313 + 0.267 * mean - 11.9 * power(mean - 0.75, 8);
}

/**
 * The exponential distribution of daily clearness with exactly the given mean and ends (no unit).
 *
 * in: mean, monthly mean clearness, between the ends; highest, brightest day, that of the source by default
 * out: the distribution
 * throws: RangeError when the mean does not lie between the ends
 * valid: any month; a mean nearer to an end than 1/5000 of the span is refused
 * source: Bendt1981
 * departs: the slope solves the equation of the mean. The usual closed form (Herzog1985) makes dark months too
 *   bright: by 7 percent at a mean of 0.20, by 14 percent at 0.15. Below a mean of 0.10 the dullest day is half of it.
 */
export function bendt(mean: number, highest = highestClearness(mean)): ClearnessDistribution {
  const lowest = Math.min(DULLEST_CLEARNESS, DULLEST_OF_MEAN * mean);
  const span = highest - lowest;
  const aim = (mean - lowest) / span;
  const slope = solved((g) => scaledMean(g) - aim, mean, lowest, highest) / span;
  const flat = Math.abs(slope * span) < NEARLY_FLAT;
  return {
    lowest,
    highest,
    slope,
    shareDuller: (clearness) => {
      const above = Math.min(Math.max(clearness - lowest, 0), span);
      return flat ? above / span : expm1(slope * above) / expm1(slope * span);
    },
    clearnessAt: (share) => lowest + (flat ? share * span : log1p(share * expm1(slope * span)) / slope),
  };
}

/** Mean of a density proportional to exp(g u) over u from 0 to 1. */
function scaledMean(g: number): number {
  if (Math.abs(g) < 1e-4) return 0.5 + g / 12;
  return 1 / -expm1(-g) - 1 / g;
}

/** Clearness at which the density of the second distribution comes to nought (HollandsHuget1983). */
const CLEARNESS_OF_NONE = 0.864;
/** Its slope is looked for between these, times 0.864: means from 0.002 to 0.85. */
const SLOPES = [-900, 300] as const;

/**
 * The distribution of daily clearness whose density falls as a straight line times an exponential (no unit).
 *
 * in: mean, monthly mean clearness; highest, brightest day, at most 0.864; a lower one cuts the density off there
 * out: the distribution, from 0
 * throws: RangeError when the mean does not lie between the ends
 * source: HollandsHuget1983
 * departs: the slope solves the equation of the mean; the printed fit of the slope misses it by up to 2 percent in dark
 *   months
 */
export function hollandsHuget(mean: number, highest = CLEARNESS_OF_NONE): ClearnessDistribution {
  const h = Math.min(highest, CLEARNESS_OF_NONE);
  const below = (slope: number, k: number, n: number) =>
    CLEARNESS_OF_NONE * moment(slope, k, n) - moment(slope, k, n + 1);
  const meanOf = (slope: number) => below(slope, h, 1) / below(slope, h, 0);
  const slope = solved((g) => meanOf(g / CLEARNESS_OF_NONE) - mean, mean, 0, h, SLOPES) / CLEARNESS_OF_NONE;
  const whole = below(slope, h, 0);
  const shareDuller = (clearness: number) => below(slope, Math.min(Math.max(clearness, 0), h), 0) / whole;
  return {
    lowest: 0,
    highest: h,
    slope,
    shareDuller,
    clearnessAt: (share) =>
      share <= 0 ? 0 : share >= 1 ? h : (bisect((k) => shareDuller(k) - share, 0, h) ?? h),
  };
}

/** Integral of u^n exp(slope u) over u from 0 to k. */
function moment(slope: number, k: number, n: number): number {
  const g = slope * k;
  if (Math.abs(g) < 1) return power(k, n + 1) * series(g, n);
  let part = expm1(g) / g;
  for (let i = 1; i <= n; i++) part = (exp(g) - i * part) / g;
  return power(k, n + 1) * part;
}

/** The same for k = 1 and a small slope. */
function series(g: number, n: number): number {
  let term = 1;
  let sum = 1 / (n + 1);
  for (let i = 1; i <= 20; i++) {
    term *= g / i;
    sum += term / (n + 1 + i);
  }
  return sum;
}

function solved(
  f: (g: number) => number,
  mean: number,
  lowest: number,
  highest: number,
  [least, most]: readonly [number, number] = [-STEEPEST, STEEPEST],
): number {
  const root = bisect(f, least, most);
  if (root !== undefined) return root;
  throw new RangeError(`mean clearness ${mean} does not lie between ${lowest} and ${highest}`);
}
