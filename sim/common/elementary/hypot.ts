import { lostOfProduct } from './lostOfProduct.ts';

/**
 * Root of the sum of squares: the length of a vector, the error that independent ones come to.
 *
 * in: values, of any size
 * valid: within 0.6 units of the last place
 * source: Dekker1971
 * @example hypot(3, 4); // => 5
 */
export function hypot(...values: readonly number[]): number {
  const most = Math.max(0, ...values.map(Math.abs));
  if (most === 0) return 0;
  if (!(most < Number.POSITIVE_INFINITY))
    return values.some((value) => Math.abs(value) === Number.POSITIVE_INFINITY)
      ? Number.POSITIVE_INFINITY
      : Number.NaN;
  let sum = 0;
  let low = 0;
  const scale = most > 1e140 ? SHRINK : most < 1e-140 ? 1 / SHRINK : 1;
  for (const value of values) {
    const side = value * scale;
    const square = side * side;
    const next = sum + square;
    const taken = next - sum;
    low +=
      sum - (next - taken) + (square - taken) + (square > 1e-280 ? lostOfProduct(side, side, square) : 0);
    sum = next;
  }
  const root = Math.sqrt(sum);
  const again = root * root;
  return (root + (sum - again - lostOfProduct(root, root, again) + low) / (2 * root)) / scale;
}

/** 2^-640 */
const SHRINK = 2.191809349008403e-193;
