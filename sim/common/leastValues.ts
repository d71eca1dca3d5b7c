/** Something to be found: where to begin, and by how much it may plausibly be off (its scale). */
export interface Unknown {
  start: number;
  /** Positive. What the readings settle worse than that they do not settle. */
  scale: number;
  /** Least and greatest value it may take. */
  least?: number;
  most?: number;
}

/** What was found. */
export interface LeastValues {
  values: readonly number[];
  /** At the values found. */
  residuals: readonly number[];
  sumOfSquares: number;
  /** Residuals less unknowns; at least 0. */
  freedom: number;
  /** For each unknown over its scale, those of the residuals; one residual more for each, so that none is quite open. */
  slopes: readonly (readonly number[])[];
}

/** How finely is looked for the least sum of squares. */
export interface Fineness {
  /** Step of the slopes, in scales; larger where the residuals are not smooth. */
  step?: number;
  /** A sum of squares that differs by less than this share is the same. */
  gain?: number;
}

/** What is not settled at all is known no worse than this many scales: keeps the algebra finite. */
const VAGUE = 1e4;
/** Of a residual where the model breaks down: as far off as anything. */
const BROKEN = 1e4;
const MOST_ROUNDS = 100;
const DAMPING = { first: 1e-3, least: 1e-6, most: 1e6 };

/** The unknowns over their scales: all algebra is in these. */
interface Scaled {
  low: readonly number[];
  high: readonly number[];
  valuesAt: (at: readonly number[]) => number[];
  residualsAt: (at: readonly number[]) => Float64Array;
}

/**
 * The values of unknowns that make a sum of squared residuals least: what a lamp needs of a fit. How well they are known
 * says `leastSquares`.
 *
 * in: unknowns; count, of residuals; residualsInto, fills the residuals (each over its own standard deviation) at
 *   given values of the unknowns; fineness
 * out: values, residuals and slopes there
 * valid: near a minimum where the residuals are nearly straight lines in the unknowns over a standard error
 * source: Marquardt1963, in unknowns over their scale; one that is pushed over its bound stays there for a step
 */
export function leastValues(
  unknowns: readonly Unknown[],
  count: number,
  residualsInto: (target: Float64Array, values: readonly number[]) => void,
  { step = 1e-4, gain = 1e-7 }: Fineness = {},
): LeastValues {
  const scaled = overScales(unknowns, count, residualsInto);
  let at = unknowns.map(() => 0);
  let residuals = scaled.residualsAt(at);
  let sum = dot(residuals, residuals);
  let slopes = slopesAt(at, scaled, step);
  let damping = DAMPING.first;
  for (let round = 0; round < MOST_ROUNDS && damping <= DAMPING.most; round++) {
    const next = dampedStep(at, slopes, residuals, scaled, damping);
    const there = scaled.residualsAt(next);
    const gained = sum - dot(there, there);
    if (!(gained > 0)) {
      damping *= 10;
      continue;
    }
    at = next;
    residuals = there;
    sum -= gained;
    slopes = slopesAt(at, scaled, step);
    // A small gain under strong damping is only a small step.
    if (gained <= gain * (1 + sum) && damping <= 1) break;
    damping = Math.max(damping / 10, DAMPING.least);
  }
  return {
    values: scaled.valuesAt(at),
    residuals: [...residuals],
    sumOfSquares: sum,
    freedom: Math.max(0, count - unknowns.length),
    slopes,
  };
}

function overScales(
  unknowns: readonly Unknown[],
  count: number,
  residualsInto: (target: Float64Array, values: readonly number[]) => void,
): Scaled {
  const bound = (value: number | undefined, { start, scale }: Unknown, otherwise: number) =>
    value === undefined ? otherwise : (value - start) / scale;
  const valuesAt = (at: readonly number[]) => unknowns.map(({ start, scale }, k) => start + at[k]! * scale);
  return {
    low: unknowns.map((unknown) => bound(unknown.least, unknown, -VAGUE)),
    high: unknowns.map((unknown) => bound(unknown.most, unknown, VAGUE)),
    valuesAt,
    residualsAt: (at) => {
      const target = new Float64Array(count);
      residualsInto(target, valuesAt(at));
      return target.map((each) => (Number.isFinite(each) ? each : BROKEN));
    },
  };
}

/** Slopes of the residuals by central differences. */
function slopesAt(at: readonly number[], { low, high, residualsAt }: Scaled, step: number): number[][] {
  return at.map((centre, k) => {
    const from = Math.max(centre - step, low[k]!);
    const to = Math.min(centre + step, high[k]!);
    const below = residualsAt(at.with(k, from));
    const above = residualsAt(at.with(k, to));
    const vague = at.map((_, l) => (l === k ? 1 / VAGUE : 0));
    return [...above.map((each, i) => (each - below[i]!) / (to - from)), ...vague];
  });
}

/** The point to which the damped normal equations lead. */
function dampedStep(
  at: readonly number[],
  slopes: LeastValues['slopes'],
  residuals: Float64Array,
  { low, high }: Scaled,
  damping: number,
): number[] {
  const downhill = slopes.map((column) => -dot(residuals, column));
  const normal = normalOf(slopes);
  for (let k = 0; k < at.length; k++) {
    const push = downhill[k]!;
    if ((push < 0 && at[k]! <= low[k]!) || (push > 0 && at[k]! >= high[k]!)) {
      downhill[k] = 0;
      for (let l = 0; l < at.length; l++) if (l !== k) normal[k]![l] = normal[l]![k] = 0;
    }
    normal[k]![k]! *= 1 + damping;
  }
  const step = solved(normal, downhill);
  return at.map((from, k) => Math.min(high[k]!, Math.max(low[k]!, from + step[k]!)));
}

/**
 * Standard error of one unknown, as `leastSquares` gives them all.
 *
 * in: found; unknowns, that it was found of; at, the one
 */
export function standardError({ slopes }: LeastValues, unknowns: readonly Unknown[], at: number): number {
  const alone = slopes.map((_, k) => (k === at ? 1 : 0));
  return Math.sqrt(solved(normalOf(slopes), alone)[at]!) * unknowns[at]!.scale;
}

/** The normal equations of straight residuals. */
function normalOf(slopes: LeastValues['slopes']): number[][] {
  return slopes.map((left) => slopes.map((right) => dot(left, right)));
}

/**
 * The solution of a few symmetric equations, by Cholesky's factors. A library of matrices weighs more than all the rest
 * of what a page needs to run a lamp.
 */
function solved(matrix: readonly (readonly number[])[], right: readonly number[]): number[] {
  const factor: number[][] = [];
  for (const [j, row] of matrix.entries()) {
    const made: number[] = [];
    for (let k = 0; k < j; k++) made.push((row[k]! - dot(made, factor[k]!)) / factor[k]![k]!);
    const left = row[j]! - dot(made, made);
    if (!(left > 0)) throw new Error('normal equations that are not positive definite');
    factor.push([...made, Math.sqrt(left)]);
  }
  const solution = [...right];
  for (let k = 0; k < solution.length; k++) {
    for (let i = 0; i < k; i++) solution[k]! -= solution[i]! * factor[k]![i]!;
    solution[k]! /= factor[k]![k]!;
  }
  for (let k = solution.length - 1; k >= 0; k--) {
    for (let i = k + 1; i < solution.length; i++) solution[k]! -= solution[i]! * factor[i]![k]!;
    solution[k]! /= factor[k]![k]!;
  }
  return solution;
}

/** Sum of products, as far as the first goes. */
function dot(left: ArrayLike<number>, right: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < left.length; i++) sum += left[i]! * right[i]!;
  return sum;
}
