import { sampleCorrelation } from 'simple-statistics';

/**
 * Spearman's rank correlation of two columns, -1 to 1; equal values share the mean of their ranks.
 *
 * in: left and right, as long as each other
 * NaN when: fewer than three pairs, or all values of a column are equal
 * source: Spearman1904
 * @example rankCorrelation([1, 2, 3, 4], [10, 20, 20, 40]); // => 0.948683
 */
export function rankCorrelation(left: readonly number[], right: readonly number[]): number {
  if (left.length < 3 || new Set(left).size < 2 || new Set(right).size < 2) return Number.NaN;
  return sampleCorrelation(ranks(left), ranks(right));
}

function ranks(values: readonly number[]): number[] {
  return values.map((value) => {
    const below = values.filter((other) => other < value).length;
    const equal = values.filter((other) => other === value).length;
    return below + (equal + 1) / 2;
  });
}
