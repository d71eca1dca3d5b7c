/** Rows of the table for each doubling. */
const ROWS = 256;
const PER_ROW = ROWS / Math.LN2;
/** ln 2 / ROWS in two parts, so that the rest loses no digits: the first has zeros at its end. */
const ROW_HIGH = Math.fround(Math.LN2 / ROWS);
const ROW_LOW = Math.LN2 / ROWS - ROW_HIGH;
/** Added and taken away, it leaves a whole number: the mantissa has no room for more. */
const ROUNDER = 1.5 * 2 ** 52;
const LOWEST = -1080;
const FRACTIONS = Float64Array.from({ length: ROWS }, (_, i) => 2 ** (i / ROWS));
const DOUBLINGS = Float64Array.from({ length: 2110 }, (_, i) => 2 ** (i + LOWEST));

/**
 * e to the power x, about twice as fast as Math.exp: for the hourly loop, which lives on exponentials.
 *
 * A table of 256 steps a doubling and five terms of the series between them.
 * in: x, -700 to 700; beyond, Math.exp serves
 * valid: relative error below 2e-15 over -40 to 40
 * @example quickExp(1); // => 2.718281828459045
 */
export function quickExp(x: number): number {
  if (!(x > -700 && x < 700)) return Math.exp(x);
  const rounded = x * PER_ROW + ROUNDER - ROUNDER;
  const rest = x - rounded * ROW_HIGH - rounded * ROW_LOW;
  const row = rounded | 0;
  // Pairs of terms apart from each other: the processor works on both at once.
  const square = rest * rest;
  const series = 1 + rest + square * (0.5 + rest * (1 / 6) + square * (1 / 24));
  return DOUBLINGS[(row >> 8) - LOWEST]! * FRACTIONS[row & 255]! * series;
}
