import { arcOfRatio, firstHalf, lostOfProduct, sumInTwo } from './lostOfProduct.ts';

/** Rows of the table from 0 to 1. */
const ROWS = 64;
/** Inverse tangents of row / ROWS, each in two parts. */
const ARCS = /* @__PURE__ */ arcs();
const RIGHT = Math.PI / 2;
const RIGHT_LOW = 6.123233995736766e-17;
/** What the last angle left to its second part. */
const left = /* @__PURE__ */ new Float64Array(1);

function arcs(): Float64Array {
  const table = new Float64Array(2 * ROWS + 2);
  let [high, low] = [0, 0];
  for (let row = 0; row < ROWS; row++) {
    // The difference of two inverse tangents is one itself.
    [high, low] = sumInTwo(high, low, ...arcOfRatio(ROWS, ROWS * ROWS + row * (row + 1), -1));
    table[2 * row + 2] = high;
    table[2 * row + 3] = low;
  }
  return table;
}

/**
 * Angle whose tangent is y / x, in radians, 0 to a right angle; `left` then is what it lacks.
 *
 * in: y, x, in two parts each, 0 or above, the larger one from 1e-150 to 1e150
 */
function firstQuadrant(y: number, yLow: number, x: number, xLow: number): number {
  const steep = y > x;
  const a = steep ? x : y;
  const aLow = steep ? xLow : yLow;
  const b = steep ? y : x;
  const bLow = steep ? yLow : xLow;
  let d = a / b;
  let low = 0;
  const row = (d * ROWS + 0.5) | 0;
  if (row === 0) {
    // What the quotient lost counts, where it is all there is.
    const product = d * b;
    if (d > 1e-9) low = (a - product - lostOfProduct(d, b, product) + aLow - d * bLow) / b;
  } else {
    // The tangent of a difference; c has few digits, so that the numerator is exact but for its end.
    const c = row / ROWS;
    const half = firstHalf(b);
    d = (a - c * half - c * (b - half) + (aLow - c * bLow)) / (b + c * a);
  }
  const z = d * d;
  low += d * z * (z * (1 / 5 - z * (1 / 7 - z * (1 / 9))) - 1 / 3) + ARCS[2 * row + 1]!;
  const first = ARCS[2 * row]!;
  let angle = first + d;
  low += first - angle + d;
  if (steep) {
    const rest = RIGHT - angle;
    low = RIGHT - rest - angle + (RIGHT_LOW - low);
    angle = rest;
  }
  const sum = angle + low;
  left[0] = angle - sum + low;
  return sum;
}

/** Two right angles less the last angle. */
function beyond(angle: number): number {
  const rest = 2 * RIGHT - angle;
  return rest + (2 * RIGHT - rest - angle + (2 * RIGHT_LOW - left[0]!));
}

/**
 * Angle of the direction x, y from the axis of x, in radians, -pi to pi.
 *
 * valid: within 0.6 units of the last place, but where the angle is no normal number
 * source: Tang1991
 * @example atan2(1, 2); // => 0.4636476090008061
 */
export function atan2(y: number, x: number): number {
  let across = Math.abs(y);
  let along = Math.abs(x);
  const most = Math.max(across, along);
  if (!(most > 1e-140 && most < 1e140)) {
    if (most === 0) along = 1;
    else if (most === Number.POSITIVE_INFINITY) {
      across = across === most ? 1 : 0;
      along = along === most ? 1 : 0;
    } else if (Math.min(across, along) > 1e-10 * most) {
      const scale = most > 1 ? SHRINK : 1 / SHRINK;
      across *= scale;
      along *= scale;
    }
  }
  const near = firstQuadrant(across, 0, along, 0);
  const angle = x < 0 || Object.is(x, -0) ? beyond(near) : near;
  return y < 0 || Object.is(y, -0) ? -angle : angle;
}

/** 2^-500 */
const SHRINK = 3.054936363499605e-151;

/**
 * Angle of which x is the sine, in radians.
 *
 * valid: within 0.6 units of the last place
 * NaN when: x is beyond -1 and 1
 * source: Tang1991
 * @example asin(0.5); // => 0.5235987755982989
 */
export function asin(x: number): number {
  const size = Math.abs(x);
  if (size < 1e-8) return x;
  const other = otherSide(x);
  const angle = firstQuadrant(size, 0, other, left[0]!);
  return x < 0 ? -angle : angle;
}

/**
 * Angle of which x is the cosine, in radians, 0 to pi.
 *
 * valid: within 0.6 units of the last place
 * NaN when: x is beyond -1 and 1
 * source: Tang1991
 * @example acos(0.5); // => 1.0471975511965979
 */
export function acos(x: number): number {
  const other = otherSide(x);
  const angle = firstQuadrant(other, left[0]!, Math.abs(x), 0);
  return x < 0 ? beyond(angle) : angle;
}

/** The side of a right triangle beside x, its longest being 1; `left` then is what it lacks. */
function otherSide(x: number): number {
  const square = x * x;
  const lost = Math.abs(x) < 1e-140 ? 0 : lostOfProduct(x, x, square);
  const rest = 1 - square;
  const restLow = 1 - rest - square - lost;
  const side = Math.sqrt(rest);
  const again = side * side;
  left[0] = side > 0 ? (rest - again - lostOfProduct(side, side, again) + restLow) / (2 * side) : 0;
  return side;
}
