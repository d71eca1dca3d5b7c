import { bisect } from '../../sim/common/numeric.ts';

/** Clearness of the dullest day: the lower end of the distribution (Bendt1981). */
const DULLEST_CLEARNESS = 0.05;

/** Spread times slope below which the exponential is taken as flat, its limit. */
const NEARLY_FLAT = 1e-6;

/** Steepest exponential looked for: a mean within 1/5000 of the span from one end. */
const STEEPEST = 5000;

/** Ends and slope of a distribution of daily clearness. */
export interface Bendt {
  /** Clearness index of the dullest day. */
  lowest: number;
  /** Clearness index of the brightest day. */
  highest: number;
  /** Slope of the exponential density, per unit of clearness; negative in dull months. */
  slope: number;
}

/**
 * Clearness index of the brightest day of a month, from the month's mean clearness (no unit).
 *
 * in: meanClearness, monthly mean of the daily clearness index, 0.15 to 0.75
 * out: clearness index
 * valid: mean 0.15 to 0.75
 * source: HollandsHuget1983, as printed in DuffieBeckman2020 eq. 2.9.6
 */
export function highestClearness(meanClearness: number): number {
  return 0.6313 + 0.267 * meanClearness - 11.9 * (meanClearness - 0.75) ** 8;
}

/**
 * The exponential distribution of daily clearness with exactly the given mean and ends (no unit).
 *
 * in: mean, monthly mean clearness, between lowest and highest; highest and lowest, ends of the distribution
 * out: ends and slope
 * throws: RangeError when the mean does not lie between the ends
 * valid: any month; a mean nearer to an end than 1/5000 of the span is refused
 * source: Bendt1981
 * departs: the slope solves the equation of the mean. The usual closed form (Herzog1985) makes dark months too
 *   bright: by 7 percent at a mean of 0.20, by 14 percent at 0.15.
 */
export function bendt(mean: number, highest = highestClearness(mean), lowest = DULLEST_CLEARNESS): Bendt {
  const span = highest - lowest;
  const aim = (mean - lowest) / span;
  const steepness = bisect((g) => scaledMean(g) - aim, -STEEPEST, STEEPEST);
  if (steepness === undefined) {
    throw new RangeError(`mean clearness ${mean} does not lie between ${lowest} and ${highest}`);
  }
  return { lowest, highest, slope: steepness / span };
}

/**
 * Share of days duller than a clearness (no unit, 0 to 1).
 *
 * in: days, a distribution; clearness, any
 * out: 0 below the lowest, 1 above the highest
 * source: Bendt1981
 */
export function shareDuller(days: Bendt, clearness: number): number {
  const span = days.highest - days.lowest;
  const above = Math.min(Math.max(clearness - days.lowest, 0), span);
  if (Math.abs(days.slope * span) < NEARLY_FLAT) return above / span;
  return Math.expm1(days.slope * above) / Math.expm1(days.slope * span);
}

/**
 * Clearness that a given share of days stays below (no unit): the inverse of `shareDuller`.
 *
 * in: days, a distribution; share, 0 to 1
 * out: clearness between the ends
 * source: Bendt1981
 */
export function clearnessAtShare(days: Bendt, share: number): number {
  const span = days.highest - days.lowest;
  if (Math.abs(days.slope * span) < NEARLY_FLAT) return days.lowest + share * span;
  return days.lowest + Math.log1p(share * Math.expm1(days.slope * span)) / days.slope;
}

/** Mean of a density proportional to exp(g u) over u from 0 to 1. */
function scaledMean(g: number): number {
  if (Math.abs(g) < 1e-4) return 0.5 + g / 12;
  return 1 / -Math.expm1(-g) - 1 / g;
}
