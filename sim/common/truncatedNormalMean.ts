import { erf } from 'simple-statistics';

/**
 * Mean of a normal quantity that is known to be above 0, in its own unit: what is left possible of an estimate that
 * may lie at or below 0.
 *
 * in: value, the estimate; error, its standard error, above 0
 * source: JCGM100 (knowledge beforehand)
 * @example truncatedNormalMean(0, 1); // => 0.79788
 */
export function truncatedNormalMean(value: number, error: number): number {
  const ratio = value / error;
  const density = Math.exp((-ratio * ratio) / 2) / Math.sqrt(2 * Math.PI);
  const share = (1 + erf(ratio / Math.SQRT2)) / 2;
  // Far below 0 the share cancels out; the mean is then nearly error / |ratio|.
  return share < 1e-5 ? error / Math.abs(ratio) : value + (error * density) / share;
}
