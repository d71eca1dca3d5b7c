import { sum } from 'simple-statistics';

/**
 * Sum of a column, compensated, in the column's unit. For sums over a year, where a plain loop loses digits.
 *
 * in: column, any length, typed or not
 * out: the sum; 0 for an empty column
 * NaN when: the column holds a NaN
 * valid: relative error about one rounding, whatever the length
 * source: Neumaier1974, for lists through the package simple-statistics
 * @example compensatedSum([1, 1e100, 1, -1e100]); // => 2
 */
export function compensatedSum(column: ArrayLike<number>): number {
  return column instanceof Float64Array ? columnSum(column) : sum(column as readonly number[]);
}

/** The same for columns alone: where one loop reads lists too, a year of hours takes 0.24 ms, not 0.02. */
function columnSum(column: Float64Array): number {
  let total = 0;
  let lost = 0;
  for (let i = 0; i < column.length; i++) {
    const value = column[i]!;
    const next = total + value;
    // What rounding took from the sum, exact whichever of the two is larger.
    const taken = next - total;
    lost += total - (next - taken) + (value - taken);
    total = next;
  }
  return total + lost;
}

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

/**
 * A root of a continuous function between two points, in the unit of its argument; undefined where the ends do not
 * bracket one. For building parameters, not for hot loops.
 *
 * in: f, the function; low, high, the bracket
 * out: the root, to about 1e-15 of the bracket
 * @example bisect((x) => x * x - 4, 0, 10); // => 2
 */
export function bisect(f: (x: number) => number, low: number, high: number): number | undefined {
  let a = low;
  let b = high;
  let atA = f(a);
  const atB = f(b);
  if (atA === 0) return a;
  if (atB === 0) return b;
  if (!(atA * atB < 0)) return undefined;
  for (let i = 0; i < 200; i++) {
    const middle = (a + b) / 2;
    if (middle === a || middle === b) break;
    const atMiddle = f(middle);
    if (Number.isNaN(atMiddle)) return undefined;
    if (atMiddle === 0) return middle;
    if (atA * atMiddle < 0) b = middle;
    else {
      a = middle;
      atA = atMiddle;
    }
  }
  return (a + b) / 2;
}

/**
 * A function through values at 0, 1, 2, ..., straight lines between them, in the unit of the values.
 *
 * in: values, at least two
 * out: takes a place from 0 to the last
 * @example straightLines([5, 7, 6])(0.5); // => 6
 */
export function straightLines(values: ArrayLike<number>): (place: number) => number {
  return (place) => {
    const i = Math.min(Math.floor(place), values.length - 2);
    return values[i]! + (place - i) * (values[i + 1]! - values[i]!);
  };
}

/**
 * A number to a tenth, for messages; never minus zero.
 *
 * @example tenths(12.34); // => 12.3
 */
export function tenths(value: number): number {
  return Math.round(value * 10) / 10 + 0;
}

/** A number times itself: the language's operator for powers rounds in its own way in each engine. */
export function square(x: number): number {
  return x * x;
}
