import { exp } from '../common/elementary/exp.ts';
import { log1p } from '../common/elementary/log.ts';
/**
 * How much of a cell's light current passes the blocking diode, as a table of one dimensionless voltage.
 *
 * A row holds two cubics over the step to the next row: of the share that passes, and of its natural logarithm.
 */
export interface PassTable {
  /** Eight numbers a row: the share's cubic, then the logarithm's, each from the constant term up. */
  rows: Float64Array;
  /** Dimensionless voltage of the first row; below it everything passes. */
  low: number;
  /** Number of the last row; from it on the share is the exponential of the voltage's negative. */
  last: number;
}

export const PASS_ROWS_PER_UNIT = 8;
const HIGHEST = 18;
const LOWEST = -18;

const made = new Map<number, PassTable>();

/**
 * The table for a pair of cell and diode.
 *
 * Cell junction and diode share the light current P: M = P (1 - share) flows back through the cell's own junction, J = P share
 * goes on through the diode. With u = a ln(M / Is) and v = b ln(J / Id), the voltage that is left, u - v, is
 * b (k ln(1 - share) - ln share) and terms that do not depend on the share: one curve for each k = a / b, which no
 * temperature moves.
 *
 * in: k, thermal voltage of the cell's string over that of the diode, above 0
 * out: the table, kept for equal k
 * valid: cubics in steps of an eighth miss the share by less than 1e-6
 * source: DeSoto2006 (cell), Shockley1949 (diode); the reduction to one curve is derived here
 */
export function passTable(k: number): PassTable {
  const known = made.get(k);
  if (known !== undefined) return known;
  if (made.size > 63) made.clear();
  const low = Math.ceil(LOWEST * k);
  const count = (HIGHEST - low) * PASS_ROWS_PER_UNIT;
  const rows = new Float64Array(count * 8);
  const step = 1 / PASS_ROWS_PER_UNIT;
  let odds = -HIGHEST;
  let above = pointAt(k, HIGHEST, odds, step);
  for (let row = count - 1; row >= 0; row--) {
    odds = above.odds - above.oddsSlope;
    const here = pointAt(k, low + row * step, odds, step);
    rows.set(cubic(here.share, here.shareSlope, above.share, above.shareSlope), row * 8);
    rows.set(cubic(here.log, here.logSlope, above.log, above.logSlope), row * 8 + 4);
    above = here;
  }
  const table = { rows, low, last: count - 1 };
  made.set(k, table);
  return table;
}

/** The curve at a voltage, by Newton on the logarithm of the odds, share / (1 - share); slopes for one row. */
function pointAt(k: number, voltage: number, guess: number, step: number) {
  let odds = guess;
  for (let round = 0; round < 60; round++) {
    const log1 = log1p(exp(-odds));
    const share = exp(-log1);
    const change = (voltage - log1 + k * (odds + log1)) / -(k * share + 1 - share);
    odds += change;
    if (Math.abs(change) < 1e-13) break;
  }
  const log = -log1p(exp(-odds));
  const share = exp(log);
  const oddsSlope = -step / (k * share + 1 - share);
  return {
    odds,
    oddsSlope,
    share,
    shareSlope: share * (1 - share) * oddsSlope,
    log,
    logSlope: (1 - share) * oddsSlope,
  };
}

/** Coefficients of the cubic over 0 to 1 with these values and slopes at its ends. */
function cubic(from: number, fromSlope: number, to: number, toSlope: number): number[] {
  const rise = to - from;
  return [from, fromSlope, 3 * rise - 2 * fromSlope - toSlope, fromSlope + toSlope - 2 * rise];
}
