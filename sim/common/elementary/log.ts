import { arcOfRatio, lostOfProduct, sumInTwo } from './lostOfProduct.ts';

/** Rows of the table over one doubling, as many as 7 bits tell apart. */
const ROWS = 128;
/** The high word of the first row's beginning: 1 is the middle of a row, so its logarithm needs no table. */
const FIRST_WORD = 0x3fe69000;
const ROW_OF_1 = 75;
/** Inverses are of so few digits that their product with half a number is exact. */
const INVERSE_OF = 512;
const bits = /* @__PURE__ */ new ArrayBuffer(8);
const value = /* @__PURE__ */ new Float64Array(bits);
const words = /* @__PURE__ */ new Int32Array(bits);
/** The word that holds sign and exponent. */
const HIGH = new Uint8Array(new Uint32Array([1]).buffer)[0] === 1 ? 1 : 0;
/** What the last logarithm left to its second part. */
const left = /* @__PURE__ */ new Float64Array(1);
/** 2^42: first parts of logarithms are whole numbers of its inverse, so that their sums are exact. */
const FIRST_PARTS = 4398046511104;
const INVERSES = /* @__PURE__ */ inverses();
/** Minus the logarithm of each inverse, in two parts. */
const LOGS = /* @__PURE__ */ logs();
/** Brings the least of numbers to where they are normal. */
const TO_NORMAL = 18446744073709552000;
const LN2_HIGH = 0.6931471805598903;
const LN2_LOW = 5.497923018708371e-14;
/** 1 / ln 10, in two parts. */
const PER_TEN = Math.LOG10E;
const PER_TEN_LOW = 1.098319650216765e-17;

function inverses(): Float64Array {
  return Float64Array.from({ length: ROWS }, (_, row) => {
    value[0] = 0;
    words[HIGH] = FIRST_WORD + (row << 13) + 4096;
    return Math.round(INVERSE_OF / value[0]!) / INVERSE_OF;
  });
}

function logs(): Float64Array {
  const table = new Float64Array(2 * ROWS);
  // From row to row, away from 1: of neighbours the series is short.
  for (const way of [1, -1]) {
    let [high, low] = [0, 0];
    for (let row = ROW_OF_1 + way; row >= 0 && row < ROWS; row += way) {
      const before = INVERSES[row - way]! * INVERSE_OF;
      const whole = INVERSES[row]! * INVERSE_OF;
      const [half, halfLow] = arcOfRatio(before - whole, before + whole, 1);
      [high, low] = sumInTwo(high, low, 2 * half, 2 * halfLow);
      const first = Math.round(high * FIRST_PARTS) / FIRST_PARTS;
      table[2 * row] = first;
      table[2 * row + 1] = high - first + low;
    }
  }
  return table;
}

/**
 * Natural logarithm of a normal number above 0, rounded; `logLeft` then is what it lacks, so that both together hold
 * 65 bits or more.
 *
 * A table of 128 rows and the series between them, on numbers halved so that what matters is exact.
 * in: x, a normal number; doublings, how often it was doubled before, to be one
 * source: Tang1990
 */
export function logInTwo(x: number, doublings = 0): number {
  value[0] = x;
  const word = words[HIGH]!;
  const from = word - FIRST_WORD;
  const row = (from >> 13) & (ROWS - 1);
  words[HIGH] = word - (from & ~0xfffff);
  const power = (from >> 20) - doublings;
  const z = value[0]!;
  const inverse = INVERSES[row]!;
  // r, the rest, of which the first part has few digits
  const half = Math.fround(z);
  const rHigh = half * inverse - 1;
  const rLow = (z - half) * inverse;
  const r = rHigh + rLow;
  const table = power * LN2_HIGH + LOGS[2 * row]!;
  const sum = table + r;
  const sumLow = power * LN2_LOW + LOGS[2 * row + 1]! + (table - sum + rHigh + rLow);
  const squareHigh = -0.5 * rHigh * rHigh;
  const high = sum + squareHigh;
  const highLow = sum - high + squareHigh - 0.5 * rLow * (r + rHigh);
  const square = r * r;
  const series =
    r *
    square *
    (1 / 3 - r * 0.25 + square * (0.2 - r * (1 / 6) + square * (1 / 7 - r * 0.125 + square * (1 / 9))));
  const rest = sumLow + highLow + series;
  const y = high + rest;
  left[0] = high - y + rest;
  return y;
}

/** What the last logarithm of `logInTwo` lacks. */
export function logLeft(): number {
  return left[0]!;
}

/**
 * Natural logarithm.
 *
 * valid: within 0.52 units of the last place
 * NaN when: x is below 0
 * source: Tang1990
 * @example log(2); // => 0.6931471805599453
 */
export function log(x: number): number {
  return x > 1e-307 && x < 1e308 ? logInTwo(x) : farLog(x);
}

function farLog(x: number): number {
  if (!(x > 0)) return x === 0 ? Number.NEGATIVE_INFINITY : Number.NaN;
  if (x === Number.POSITIVE_INFINITY) return x;
  return x < 1 ? logInTwo(x * TO_NORMAL, 64) : logInTwo(x);
}

/**
 * Natural logarithm of 1 + x, without the digits that small x would lose.
 *
 * valid: within 0.6 units of the last place
 * NaN when: x is below -1
 * source: Tang1990
 * @example log1p(1e-9); // => 9.999999995e-10
 */
export function log1p(x: number): number {
  if (!(x > -1 && x < 1e300)) return log(1 + x);
  if (x > -1e-17 && x < 1e-17) return x;
  const sum = 1 + x;
  const lost = x > 1 ? x - sum + 1 : 1 - sum + x;
  const high = logInTwo(sum);
  return high + (left[0]! + lost / sum);
}

/**
 * Logarithm to the base of ten; of a power of ten exactly.
 *
 * valid: within 0.52 units of the last place
 * NaN when: x is below 0
 * source: Tang1990
 * @example log10(1000); // => 3
 */
export function log10(x: number): number {
  const high = log(x);
  if (!(high > -1000 && high < 1000)) return high;
  const product = high * PER_TEN;
  return product + (lostOfProduct(high, PER_TEN, product) + high * PER_TEN_LOW + left[0]! * PER_TEN);
}
