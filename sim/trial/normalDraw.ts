import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import type { LeastSquaresFit } from '../common/leastSquares.ts';
import type { RandomStream } from '../common/random.ts';

/**
 * Draws of a fit's unknowns from the normal distribution that its covariance describes.
 *
 * in: solved; widened, factor of the standard errors (how much the readings scatter)
 * out: a function that makes one draw from a stream
 * valid: as far as the readings are straight lines in the unknowns over a standard error
 * source: JCGM100 (covariance of the unknowns)
 */
export function normalDraw(
  { values, covariance, errors }: LeastSquaresFit,
  widened: number,
): (stream: RandomStream) => number[] {
  const size = values.length;
  const correlation = Matrix.zeros(size, size);
  for (let k = 0; k < size; k++) {
    for (let l = 0; l < size; l++) correlation.set(k, l, covariance[k]![l]! / (errors[k]! * errors[l]!));
  }
  // The symmetric root: it does not hang on the order or the signs of the eigenvectors.
  const { eigenvectorMatrix, realEigenvalues } = new EigenvalueDecomposition(correlation, {
    assumeSymmetric: true,
  });
  const spread = Matrix.diag(realEigenvalues.map((value) => Math.sqrt(Math.max(0, value))));
  const root = eigenvectorMatrix.mmul(spread).mmul(eigenvectorMatrix.transpose());
  return (stream) => {
    const steps = Matrix.columnVector(values.map(() => stream.normal()));
    const along = root.mmul(steps);
    return values.map((value, k) => value + widened * errors[k]! * along.get(k, 0));
  };
}
