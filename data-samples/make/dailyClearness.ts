import type { ClearnessDistribution } from '../../sim/climate/ClearnessDistribution.ts';
import { normalShare } from '../../sim/climate/LearnedClimate.ts';
import type { RandomStream } from '../../sim/common/random.ts';

/** The weather of a run of days. */
export interface ClearnessSequence {
  /** Clearness index of each day, no unit. */
  clearness: Float64Array;
  /** The normal number behind each day, mean 0 and deviation 1: high for bright days. Temperature leans on it. */
  brightness: Float64Array;
}

/**
 * A sequence of daily clearness indices (no unit): a normal autoregression of first order, mapped day by day onto
 * the distribution of its season.
 *
 * in: days, distribution of each day; persistence, correlation of each day's normal number with that of the day
 *   before, 0 to below 1; random, a stream
 * out: as many days as `days` has
 * valid: the correlation of the clearness itself comes out a few hundredths lower than that of the normal numbers
 * source: Graham1988
 */
export function dailyClearness(
  days: readonly ClearnessDistribution[],
  persistence: ArrayLike<number>,
  random: RandomStream,
): ClearnessSequence {
  const clearness = new Float64Array(days.length);
  const brightness = new Float64Array(days.length);
  let before = random.normal();
  days.forEach((distribution, day) => {
    const carried = persistence[day]!;
    before = carried * before + Math.sqrt(1 - carried * carried) * random.normal();
    brightness[day] = before;
    clearness[day] = distribution.clearnessAt(normalShare(before));
  });
  return { clearness, brightness };
}
