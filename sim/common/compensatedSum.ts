/**
 * Sum of a column, compensated, in the column's unit. For sums over a year, where a plain loop loses digits.
 *
 * in: column, any length; start and stop, indices, start <= i < stop (the whole column by default)
 * out: the sum; 0 for an empty range
 * NaN when: the range holds a NaN
 * valid: relative error about one rounding, whatever the length
 * source: Neumaier1974
 * @example compensatedSum([1, 1e100, 1, -1e100]); // => 2
 */
export function compensatedSum(column: ArrayLike<number>, start = 0, stop = column.length): number {
  let sum = 0;
  let lost = 0;
  for (let i = start; i < stop; i++) {
    const value = column[i]!;
    const next = sum + value;
    lost += Math.abs(sum) >= Math.abs(value) ? sum - next + value : value - next + sum;
    sum = next;
  }
  return sum + lost;
}
