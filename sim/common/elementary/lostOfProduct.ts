// Numbers in two parts, the nearest double and what it leaves: so sums and products lose nothing that counts. Tables are
// made in them when a module is loaded, which takes less room than their digits.

/**
 * The first 26 digits of a number, rounded, as Veltkamp splits it; what it leaves has as many.
 *
 * in: a, not above 1e300
 * source: Dekker1971
 */
export function firstHalf(a: number): number {
  const wide = 134217729 * a;
  return wide - (wide - a);
}

/**
 * What the rounded product of two numbers has lost, exactly.
 *
 * in: a, b, not above 1e300, their product not below 1e-290
 * source: Dekker1971
 */
export function lostOfProduct(a: number, b: number, product: number): number {
  const aHigh = firstHalf(a);
  const aLow = a - aHigh;
  const bHigh = firstHalf(b);
  const bLow = b - bHigh;
  return aLow * bLow - (product - aHigh * bHigh - aLow * bHigh - aHigh * bLow);
}

/**
 * Inverse tangent of a small ratio of whole numbers by its series, or the inverse hyperbolic tangent (`sign` 1), in two
 * parts.
 *
 * in: over, under, whole, over / under up to 1/60
 * valid: to 65 digits in base two
 * source: AbramowitzStegun1964
 */
export function arcOfRatio(over: number, under: number, sign: 1 | -1): [number, number] {
  const ratio = over / under;
  const product = ratio * under;
  const z = ratio * ratio;
  const bend = sign * (1 / 3) + z * (1 / 5 + z * (sign * (1 / 7) + z * (1 / 9)));
  return [ratio, (over - product - lostOfProduct(ratio, under, product)) / under + ratio * z * bend];
}

/** Sum of two numbers in two parts each. */
export function sumInTwo(a: number, aLow: number, b: number, bLow: number): [number, number] {
  const sum = a + b;
  const taken = sum - a;
  const low = a - (sum - taken) + (b - taken) + aLow + bLow;
  return [sum + low, sum - (sum + low) + low];
}
