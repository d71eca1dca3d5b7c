import { square } from '../../common/numeric.ts';
/** Two factors that are not negative, and what is known of them. */
export interface TwoFactors {
  a: number;
  b: number;
  aError: number;
  bError: number;
}

/**
 * Two factors, neither negative, that bring a * x + b * y nearest to z: least squares by the normal equations. The
 * errors count the rows of a group as one reading, since what is missed at one hour is missed in the whole day.
 *
 * in: x, y, z, columns of one length; group, number of the group of each row
 * out: undefined where x and y do not settle both
 * source: LawsonHanson1974, chapter 23, for the factors; LiangZeger1986 for the errors over groups
 */
export function leastSquares2(
  x: readonly number[],
  y: readonly number[],
  z: readonly number[],
  group: readonly number[],
): TwoFactors | undefined {
  // xx, xy, ...: the normal equations
  const [xx, xy, yy, xz, yz] = [dot(x, x), dot(x, y), dot(y, y), dot(x, z), dot(y, z)];
  const determinant = xx * yy - xy * xy;
  if (!(determinant > LEAST_DETERMINANT * xx * yy)) return undefined;
  let a = (xz * yy - yz * xy) / determinant;
  let b = (yz * xx - xz * xy) / determinant;
  if (a < 0) {
    a = 0;
    b = Math.max(yz / yy, 0);
  } else if (b < 0) {
    b = 0;
    a = Math.max(xz / xx, 0);
  }
  const missed = z.map((value, i) => value - a * x[i]! - b * y[i]!);
  const scoresOf = (column: readonly number[]): number[] => {
    const sums = new Map<number, number>();
    missed.forEach((miss, i) => {
      sums.set(group[i]!, (sums.get(group[i]!) ?? 0) + column[i]! * miss);
    });
    return [...sums.values()];
  };
  // p, q, r: outer products of the scores summed over each group
  const [scoresX, scoresY] = [scoresOf(x), scoresOf(y)];
  const [p, q, r] = [dot(scoresX, scoresX), dot(scoresX, scoresY), dot(scoresY, scoresY)];
  const groups = scoresX.length;
  const few = groups > 1 ? groups / (groups - 1) : 1;
  const variance = dot(missed, missed) / Math.max(z.length - 2, 1);
  const grouped = (m: number, n: number) =>
    (few * (m * m * p + 2 * m * n * q + n * n * r)) / square(determinant);
  return {
    a,
    b,
    aError: Math.sqrt(Math.max((variance * yy) / determinant, grouped(yy, -xy))),
    bError: Math.sqrt(Math.max((variance * xx) / determinant, grouped(-xy, xx))),
  };
}

function dot(u: readonly number[], v: readonly number[]): number {
  return u.reduce((sum, each, i) => sum + each * v[i]!, 0);
}

/** Squared sine between the columns below which they count as one. */
const LEAST_DETERMINANT = 0.01;
