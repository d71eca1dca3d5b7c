import { scaledExp } from './exp.ts';
import { logInTwo, logLeft } from './log.ts';
import { lostOfProduct } from './lostOfProduct.ts';

/** What brings the least of numbers to where they are normal, and its logarithm in base two. */
const TO_NORMAL = 18446744073709552000;

/**
 * x to the power y, as the language's own operator has it, but the same bits in every engine. A square is better
 * written as a product.
 *
 * valid: within 0.6 units of the last place
 * NaN when: x is below 0 and y no whole number
 * source: Tang1990
 * @example power(2, 0.5); // => 1.4142135623730951
 */
export function power(x: number, y: number): number {
  if (y === 0) return 1;
  const size = Math.abs(x);
  if (size === 1 && Math.abs(y) === Number.POSITIVE_INFINITY) return Number.NaN;
  if (!(size > 0 && size < Number.POSITIVE_INFINITY)) return edgePower(x, y);
  const parity = Math.abs(y % 2);
  if (x < 0 && parity > 0 && parity !== 1) return Number.NaN;
  // Of such an exponent, all but 1 comes to 0 or infinity.
  const exponent = Math.max(-1e20, Math.min(y, 1e20));
  const high = size < 1e-300 ? logInTwo(size * TO_NORMAL, 64) : logInTwo(size);
  const product = high * exponent;
  const result = scaledExp(
    product,
    Math.abs(product) > 1e-280 ? lostOfProduct(high, exponent, product) + logLeft() * exponent : 0,
  );
  return x < 0 && parity === 1 ? -result : result;
}

/** The power of 0, infinities and NaN. */
function edgePower(x: number, y: number): number {
  if (Number.isNaN(x) || Number.isNaN(y)) return Number.NaN;
  const size = y > 0 === (x === 0) ? 0 : Number.POSITIVE_INFINITY;
  const negative = (x < 0 || Object.is(x, -0)) && Math.abs(y % 2) === 1;
  return negative ? -size : size;
}

/**
 * Ten to a whole power, the nearest number there is.
 *
 * in: n, a whole number
 * @example powerOfTen(-2); // => 0.01
 */
export function powerOfTen(n: number): number {
  return Number(`1e${n}`);
}
