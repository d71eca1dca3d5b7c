import { CholeskyDecomposition, Matrix, SingularValueDecomposition } from 'ml-matrix';

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
export interface LeastSquaresFit {
  values: readonly number[];
  /** Covariance of the unknowns, for residuals whose errors are independent and of standard deviation 1. */
  covariance: readonly (readonly number[])[];
  /** Standard errors; far above the scale where the residuals say nothing. */
  errors: readonly number[];
  /** At the values found. */
  residuals: readonly number[];
  sumOfSquares: number;
  /** Residuals less unknowns; at least 0. */
  freedom: number;
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
 * The values of unknowns that make a sum of squared residuals least, with their covariance from the slopes there.
 *
 * in: unknowns; count, of residuals; residualsInto, fills the residuals (each over its own standard deviation) at
 *   given values of the unknowns; fineness
 * out: values, covariance and residuals
 * valid: near a minimum where the residuals are nearly straight lines in the unknowns over a standard error
 * source: Marquardt1963, in unknowns over their scale; one that is pushed over its bound stays there for a step
 */
export function leastSquares(
  unknowns: readonly Unknown[],
  count: number,
  residualsInto: (target: Float64Array, values: readonly number[]) => void,
  { step = 1e-4, gain = 1e-7 }: Fineness = {},
): LeastSquaresFit {
  const scaled = overScales(unknowns, count, residualsInto);
  let at = unknowns.map(() => 0);
  let residuals = scaled.residualsAt(at);
  let sum = sumOfSquares(residuals);
  let slopes = slopesAt(at, scaled, step);
  let damping = DAMPING.first;
  for (let round = 0; round < MOST_ROUNDS && damping <= DAMPING.most; round++) {
    const next = dampedStep(at, slopes, residuals, scaled, damping);
    const there = scaled.residualsAt(next);
    const gained = sum - sumOfSquares(there);
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
  const covariance = covarianceOf(slopes, unknowns);
  return {
    values: scaled.valuesAt(at),
    covariance,
    errors: covariance.map((row, k) => Math.sqrt(row[k]!)),
    residuals: [...residuals],
    sumOfSquares: sum,
    freedom: Math.max(0, count - unknowns.length),
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

function sumOfSquares(residuals: Float64Array): number {
  return residuals.reduce((sum, each) => sum + each * each, 0);
}

/** Slopes of the residuals by central differences; one row more for each unknown, so that none is quite open. */
function slopesAt(at: readonly number[], { low, high, residualsAt }: Scaled, step: number): Matrix {
  const columns = at.map((centre, k) => {
    const from = Math.max(centre - step, low[k]!);
    const to = Math.min(centre + step, high[k]!);
    const below = residualsAt(at.with(k, from));
    const above = residualsAt(at.with(k, to));
    const vague = at.map((_, l) => (l === k ? 1 / VAGUE : 0));
    return [...above.map((each, i) => (each - below[i]!) / (to - from)), ...vague];
  });
  return new Matrix(columns).transpose();
}

/** The point to which the damped normal equations lead. */
function dampedStep(
  at: readonly number[],
  slopes: Matrix,
  residuals: Float64Array,
  { low, high }: Scaled,
  damping: number,
): number[] {
  const padded = Matrix.columnVector([...residuals, ...at.map(() => 0)]);
  const downhill = slopes.transpose().mmul(padded).mul(-1);
  const normal = slopes.transpose().mmul(slopes);
  for (let k = 0; k < at.length; k++) {
    const push = downhill.get(k, 0);
    if ((push < 0 && at[k]! <= low[k]!) || (push > 0 && at[k]! >= high[k]!)) {
      downhill.set(k, 0, 0);
      for (let l = 0; l < at.length; l++) if (l !== k) normal.set(k, l, 0).set(l, k, 0);
    }
    normal.set(k, k, normal.get(k, k) * (1 + damping));
  }
  const step = new CholeskyDecomposition(normal).solve(downhill);
  return at.map((from, k) => Math.min(high[k]!, Math.max(low[k]!, from + step.get(k, 0))));
}

function covarianceOf(slopes: Matrix, unknowns: readonly Unknown[]): number[][] {
  const { rightSingularVectors: right, diagonal } = new SingularValueDecomposition(slopes);
  return unknowns.map(({ scale }, k) =>
    unknowns.map(({ scale: other }, l) =>
      diagonal.reduce(
        (sum, singular, j) => sum + (right.get(k, j) * right.get(l, j) * scale * other) / singular ** 2,
        0,
      ),
    ),
  );
}

/** Slopes of a function of the unknowns over steps of some share of their standard errors. */
export function slopesOf(
  { values, errors }: LeastSquaresFit,
  of: (values: readonly number[]) => number,
  share: number,
): number[] {
  return values.map((value, k) => {
    const step = errors[k]! * share;
    return (of(values.with(k, value + step)) - of(values.with(k, value - step))) / (2 * step);
  });
}

/** Covariance of two functions of the unknowns, by their slopes. */
export function covarianceAlong(
  { covariance }: LeastSquaresFit,
  left: readonly number[],
  right: readonly number[],
): number {
  let sum = 0;
  for (let k = 0; k < left.length; k++) {
    for (let l = 0; l < right.length; l++) sum += left[k]! * covariance[k]![l]! * right[l]!;
  }
  return sum;
}
