import { lostOfProduct, sumInTwo } from './lostOfProduct.ts';

/** A right angle in parts of 33 digits, but for the last, so that products with a count of turns are exact. */
const RIGHT_1 = 1.5707963267341256;
const RIGHT_2 = 6.077100506303966e-11;
const RIGHT_3 = 2.0222662487111665e-21;
const RIGHT_4 = 8.4784276603689e-32;
/** The second part with all the digits that a double has. */
const RIGHT_23 = 6.077100506506192e-11;
const PER_RIGHT = 0.6366197723675814;
const EIGHTH = Math.PI / 4;
/** Beyond, the count of right angles has too many digits. */
const FAR = 1e6;
const FAR_BITS = 1280n;
/** Added and taken away, it leaves a whole number. */
const ROUNDER = 1.5 * 4503599627370496;
/** What is left of the last angle that was turned back, in two parts. */
const rest = new Float64Array(2);
let farRight = 0n;

/**
 * Turns an angle back by right angles to within an eighth of a turn; `rest` then holds what is left, in two parts.
 *
 * out: how many right angles, of which the last two bits count
 * source: CodyWaite1980
 */
function turnedBack(x: number): number {
  if (!(x < FAR && x > -FAR)) return turnedFromFar(x);
  const count = x * PER_RIGHT + ROUNDER - ROUNDER;
  const near = x - count * RIGHT_1;
  const second = count * RIGHT_23;
  const angle = near - second;
  if (!(angle > 1e-3 || angle < -1e-3)) return turnedOnto(near, count);
  rest[0] = angle;
  rest[1] = near - angle - second;
  return count;
}

/** What is left is so little that more digits of the right angle count. */
function turnedOnto(near: number, count: number): number {
  const second = count * RIGHT_2;
  const third = count * RIGHT_3;
  const [high, highLow] = sumInTwo(near, 0, -second, 0);
  const [angle, low] = sumInTwo(high, highLow, -third, -count * RIGHT_4);
  rest[0] = angle;
  rest[1] = low;
  return count;
}

/** The same for angles of many turns, in whole numbers of 2^-1280: enough for the largest number there is. */
function turnedFromFar(x: number): number {
  rest[0] = Number.NaN;
  if (!(x < Number.POSITIVE_INFINITY && x > Number.NEGATIVE_INFINITY)) return 0;
  if (farRight === 0n) farRight = 8n * farArc(5n) - 2n * farArc(239n);
  // Numbers with a fraction are made whole first.
  const fixed = Math.abs(x) < 1e20 ? BigInt(x * 1099511627776) << (FAR_BITS - 40n) : BigInt(x) << FAR_BITS;
  let count = fixed / farRight;
  let left = fixed - count * farRight;
  if (2n * left > farRight || 2n * left < -farRight) {
    const on = left > 0n ? 1n : -1n;
    count += on;
    left -= on * farRight;
  }
  // 200 digits are kept
  const kept = left >> (FAR_BITS - 200n);
  const unit = Number(1n << 200n);
  const first = Number(kept);
  rest[0] = first / unit;
  rest[1] = Number(kept - BigInt(first)) / unit;
  return Number(count & 3n);
}

/** Inverse tangent of 1/n. */
function farArc(n: bigint): bigint {
  let power = (1n << FAR_BITS) / n;
  let total = power;
  for (let odd = 3n; power !== 0n; odd += 2n) {
    power /= -n * n;
    total += power / odd;
  }
  return total;
}

/** Sine of an angle within an eighth of a turn, in two parts. */
function sineOf(a: number, low: number): number {
  return a + sineRest(a, low);
}

/** What the sine of such an angle has beside the angle. */
function sineRest(a: number, low: number): number {
  const z = a * a;
  const w = z * z;
  const even = 1 / 120 + w * (1 / 362880 + w * (1 / 6227020800 + w * (1 / 355687428096000)));
  const odd = 1 / 5040 + w * (1 / 39916800 + w * (1 / 1307674368000));
  return a * z * (z * (even - z * odd) - 1 / 6) + low * (1 - 0.5 * z);
}

function cosineOf(a: number, low: number): number {
  const half = 0.5 * a * a;
  const first = 1 - half;
  return first + (1 - first - half + cosineRest(a, low));
}

/** What the cosine of such an angle has beside 1 and the square. */
function cosineRest(a: number, low: number): number {
  const z = a * a;
  const w = z * z;
  const even = 1 / 24 + w * (1 / 40320 + w * (1 / 479001600 + w * (1 / 20922789888000)));
  const odd = 1 / 720 + w * (1 / 3628800 + w * (1 / 87178291200));
  return w * (even - z * odd) - a * low;
}

/**
 * Sine of an angle in radians.
 *
 * valid: within 0.8 units of the last place, however large the angle
 * source: CodyWaite1980
 * @example sin(0.5); // => 0.479425538604203
 */
export function sin(x: number): number {
  if (x < EIGHTH && x > -EIGHTH) return x < 1e-8 && x > -1e-8 ? x : sineOf(x, 0);
  const count = turnedBack(x);
  const size = count & 1 ? cosineOf(rest[0]!, rest[1]!) : sineOf(rest[0]!, rest[1]!);
  return count & 2 ? -size : size;
}

/**
 * Cosine of an angle in radians.
 *
 * valid: within 0.8 units of the last place, however large the angle
 * source: CodyWaite1980
 * @example cos(0.5); // => 0.8775825618903728
 */
export function cos(x: number): number {
  if (x < EIGHTH && x > -EIGHTH) return cosineOf(x, 0);
  const count = turnedBack(x);
  const size = count & 1 ? sineOf(rest[0]!, rest[1]!) : cosineOf(rest[0]!, rest[1]!);
  return (count + 1) & 2 ? -size : size;
}

/**
 * Tangent of an angle in radians: the quotient of sine and cosine, both in two parts.
 *
 * valid: within 0.7 units of the last place, however large the angle
 * source: CodyWaite1980
 * @example tan(0.5); // => 0.5463024898437905
 */
export function tan(x: number): number {
  if (x < 1e-8 && x > -1e-8) return x;
  const count = turnedBack(x);
  const a = rest[0]!;
  const sineLow = sineRest(a, rest[1]!);
  const sine = a + sineLow;
  const half = 0.5 * a * a;
  const first = 1 - half;
  const cosineLow = 1 - first - half + cosineRest(a, rest[1]!);
  const cosine = first + cosineLow;
  return count & 1
    ? -quotient(cosine, first - cosine + cosineLow, sine, a - sine + sineLow)
    : quotient(sine, a - sine + sineLow, cosine, first - cosine + cosineLow);
}

/** A quotient of two numbers in two parts, rounded once. */
function quotient(over: number, overLow: number, under: number, underLow: number): number {
  const first = over / under;
  const product = first * under;
  return first + (over - product - lostOfProduct(first, under, product) + overLow - first * underLow) / under;
}
