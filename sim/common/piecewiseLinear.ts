/**
 * Value at x of the straight lines through points, in the unit of ys; beyond the ends the end values.
 *
 * in: xs, rising; ys, as many; x
 * @example piecewiseLinear([0, 10], [5, 7], 5); // => 6
 */
export function piecewiseLinear(xs: ArrayLike<number>, ys: ArrayLike<number>, x: number): number {
  const last = xs.length - 1;
  if (x <= xs[0]!) return ys[0]!;
  if (x >= xs[last]!) return ys[last]!;
  let low = 0;
  let high = last;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (xs[middle]! <= x) low = middle;
    else high = middle;
  }
  return ys[low]! + ((ys[high]! - ys[low]!) * (x - xs[low]!)) / (xs[high]! - xs[low]!);
}
