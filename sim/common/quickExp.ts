import { exp } from './elementary/exp.ts';

/** Rows of the table to a unit of x, and as far as it reaches to either side of 0. */
const ROWS = 8;
const REACH = 64;
const ZERO_ROW = 512;
const POWERS = /* @__PURE__ */ powers();

function powers(): Float64Array {
  return Float64Array.from({ length: 2 * ZERO_ROW + 1 }, (_, row) => exp((row - ZERO_ROW) / ROWS));
}

/**
 * e to the power x, by a table and six terms of the series between its rows: for the hourly loop, as `quickLog`.
 *
 * valid: within 1e-12 of itself; beyond 64 either way `exp` serves
 * @example quickExp(1); // => 2.718281828459
 */
export function quickExp(x: number): number {
  if (!(x < REACH && x > -REACH)) return +exp(x);
  const row = (x * ROWS + (ZERO_ROW + 0.5)) | 0;
  const rest = x - (row - ZERO_ROW) * (1 / ROWS);
  const square = rest * rest;
  const even = 0.5 + square * (1 / 24 + square * (1 / 720));
  const odd = 1 / 6 + square * (1 / 120);
  return POWERS[row]! * (1 + rest + square * (even + rest * odd));
}
