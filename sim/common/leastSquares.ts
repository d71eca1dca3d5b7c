import { type LeastValues, leastValues, type Unknown } from './leastValues.ts';
import { matrices } from './matrices.ts';
import { square } from './numeric.ts';

/** What was found, and how well it is known. */
export interface LeastSquaresFit extends Omit<LeastValues, 'slopes'> {
  /** Covariance of the unknowns, for residuals whose errors are independent and of standard deviation 1. */
  covariance: readonly (readonly number[])[];
  /** Standard errors; far above the scale where the residuals say nothing. */
  errors: readonly number[];
}

/**
 * The values of unknowns that make a sum of squared residuals least, with their covariance from the slopes there.
 *
 * in: as `leastValues`
 * out: values, covariance and residuals
 * valid: as `leastValues`
 */
export function leastSquares(...given: Parameters<typeof leastValues>): LeastSquaresFit {
  return withCovariance(leastValues(...given), given[0]);
}

/** What was found of unknowns with their covariance. */
export function withCovariance(found: LeastValues, unknowns: readonly Unknown[]): LeastSquaresFit {
  const { values, slopes, ...more } = found;
  const covariance = covarianceOf(slopes, unknowns);
  return { values, covariance, errors: covariance.map((row, k) => Math.sqrt(row[k]!)), ...more };
}

function covarianceOf(slopes: LeastValues['slopes'], unknowns: readonly Unknown[]): number[][] {
  const { Matrix, SingularValueDecomposition } = matrices();
  const rows = new Matrix(slopes.map((column) => [...column])).transpose();
  const { rightSingularVectors: right, diagonal } = new SingularValueDecomposition(rows);
  return unknowns.map(({ scale }, k) =>
    unknowns.map(({ scale: other }, l) =>
      diagonal.reduce(
        (sum, singular, j) => sum + (right.get(k, j) * right.get(l, j) * scale * other) / square(singular),
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
