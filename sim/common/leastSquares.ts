import { levenbergMarquardt } from 'ml-levenberg-marquardt';
import { Matrix, SingularValueDecomposition } from 'ml-matrix';

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

/** What is not settled at all is known no worse than this many scales: keeps the algebra finite. */
const VAGUE = 1e4;
/** Step of the slopes, in scales. */
const STEP = 1e-4;
const BROKEN = 1e4;
/** The library wants three residuals at least; those that are lacking are 0. */
const LEAST_ROWS = 3;
const ROUNDS_AT_ONCE = 4;
const MOST_BURSTS = 20;
/** A sum of squares that differs by less than this share is the same. */
const NO_GAIN = 1e-7;

/**
 * The values of unknowns that make a sum of squared residuals least, with their covariance from the slopes there.
 *
 * in: unknowns; count, of residuals; residualsInto, fills the residuals (each over its own standard deviation) at
 *   given values of the unknowns; step, of the slopes in scales (larger where the residuals are
 *   not smooth); gain, share of the sum of squares that is no gain any more
 * out: values, covariance and residuals
 * valid: near a minimum where the residuals are nearly straight lines in the unknowns over a standard error
 * source: Marquardt1963; the steps are those of the library ml-levenberg-marquardt, in unknowns over their scale,
 *   a few at once with growing damping until nothing is gained
 */
export function leastSquares(
  unknowns: readonly Unknown[],
  count: number,
  residualsInto: (target: Float64Array, values: readonly number[]) => void,
  { step = STEP, gain = NO_GAIN }: { step?: number; gain?: number } = {},
): LeastSquaresFit {
  const rows = Math.max(count, LEAST_ROWS);
  const valuesAt = (scaled: readonly number[]) =>
    unknowns.map(({ start, scale }, k) => start + scaled[k]! * scale);
  const residualsAt = (scaled: readonly number[]) => {
    const target = new Float64Array(rows);
    residualsInto(target.subarray(0, count), valuesAt(scaled));
    // Where the model breaks down, as far off as anything.
    for (let i = 0; i < count; i++) if (!Number.isFinite(target[i]!)) target[i] = BROKEN;
    return target;
  };
  const data = { x: Array.from({ length: rows }, (_, i) => i), y: new Float64Array(rows) };
  const minValues = unknowns.map(({ start, scale, least }) =>
    least === undefined ? -VAGUE : (least - start) / scale,
  );
  const decomposed = (scaled: readonly number[]) =>
    new SingularValueDecomposition(slopesAt(scaled, count, residualsAt, { minValues, maxValues, step }));
  const maxValues = unknowns.map(({ start, scale, most }) =>
    most === undefined ? VAGUE : (most - start) / scale,
  );
  let at = unknowns.map(() => 0);
  let sum = sumOfSquares(residualsAt(at));
  let damping = 1e-3;
  for (let burst = 0; burst < MOST_BURSTS; burst++) {
    const found = sound(() =>
      levenbergMarquardt(
        data,
        (scaled) => {
          const residuals = residualsAt(scaled);
          return (i) => residuals[i]!;
        },
        {
          initialValues: at,
          minValues,
          maxValues,
          damping,
          gradientDifference: step,
          centralDifference: true,
          maxIterations: ROUNDS_AT_ONCE,
          errorTolerance: 0,
        },
      ),
    );
    const gained = found === undefined ? 0 : sum - found.parameterError;
    if (found !== undefined && gained > 0) {
      at = [...found.parameterValues];
      sum = found.parameterError;
    }
    if (gained > gain * (1 + sum)) {
      damping = Math.max(damping / 10, 1e-6);
      continue;
    }
    if (damping > 100 || gainLeft(decomposed(at), residualsAt(at)) < gain * (1 + sum)) break;
    damping = Math.max(damping * 1000, 1);
  }
  const covariance = covarianceOf(decomposed(at), unknowns);
  const residuals = [...residualsAt(at).subarray(0, count)];
  return {
    values: valuesAt(at),
    covariance,
    errors: covariance.map((row, k) => Math.sqrt(row[k]!)),
    residuals,
    sumOfSquares: sum,
    freedom: Math.max(0, count - unknowns.length),
  };
}

/** What the library finds; undefined where its matrix breaks down, which more damping mends. */
function sound<Result>(find: () => Result): Result | undefined {
  try {
    return find();
  } catch (error) {
    if (error instanceof Error && /^(?:LU matrix is singular|Matrix is not symmetric)/.test(error.message)) {
      return undefined;
    }
    throw error;
  }
}

function sumOfSquares(residuals: Float64Array): number {
  return residuals.reduce((sum, each) => sum + each * each, 0);
}

function slopesAt(
  at: readonly number[],
  count: number,
  residualsAt: (scaled: readonly number[]) => Float64Array,
  {
    minValues,
    maxValues,
    step,
  }: { minValues: readonly number[]; maxValues: readonly number[]; step: number },
): Matrix {
  const slopes = Matrix.zeros(count + at.length, at.length);
  for (let k = 0; k < at.length; k++) {
    const low = Math.max(at[k]! - step, minValues[k]!);
    const high = Math.min(at[k]! + step, maxValues[k]!);
    const below = residualsAt(at.with(k, low));
    const above = residualsAt(at.with(k, high));
    for (let i = 0; i < count; i++) slopes.set(i, k, (above[i]! - below[i]!) / (high - low));
    slopes.set(count + k, k, 1 / VAGUE);
  }
  return slopes;
}

/** What a whole step would still take off the sum of squares. */
function gainLeft(
  { leftSingularVectors: left }: SingularValueDecomposition,
  residuals: Float64Array,
): number {
  let gain = 0;
  for (let j = 0; j < left.columns; j++) {
    let along = 0;
    for (let i = 0; i < Math.min(residuals.length, left.rows); i++) along += left.get(i, j) * residuals[i]!;
    gain += along * along;
  }
  return gain;
}

function covarianceOf(
  { rightSingularVectors: right, diagonal }: SingularValueDecomposition,
  unknowns: readonly Unknown[],
): number[][] {
  return unknowns.map(({ scale }, k) =>
    unknowns.map(({ scale: other }, l) =>
      diagonal.reduce(
        (sum, singular, j) => sum + (right.get(k, j) * right.get(l, j) * scale * other) / singular ** 2,
        0,
      ),
    ),
  );
}
