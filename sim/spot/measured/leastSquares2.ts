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
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  z: ArrayLike<number>,
  group: ArrayLike<number>,
): TwoFactors | undefined {
  // xx, xy, ...: the normal equations
  let xx = 0;
  let xy = 0;
  let yy = 0;
  let xz = 0;
  let yz = 0;
  const rows = z.length;
  for (let i = 0; i < rows; i++) {
    xx += x[i]! * x[i]!;
    xy += x[i]! * y[i]!;
    yy += y[i]! * y[i]!;
    xz += x[i]! * z[i]!;
    yz += y[i]! * z[i]!;
  }
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
  // squares: of what is missed; p, q, r: outer products of the scores summed over each group
  let squares = 0;
  const scores = new Map<number, { x: number; y: number }>();
  for (let i = 0; i < rows; i++) {
    const missed = z[i]! - a * x[i]! - b * y[i]!;
    squares += missed * missed;
    const score = scores.get(group[i]!) ?? { x: 0, y: 0 };
    score.x += x[i]! * missed;
    score.y += y[i]! * missed;
    scores.set(group[i]!, score);
  }
  let p = 0;
  let q = 0;
  let r = 0;
  for (const score of scores.values()) {
    p += score.x * score.x;
    q += score.x * score.y;
    r += score.y * score.y;
  }
  const few = scores.size > 1 ? scores.size / (scores.size - 1) : 1;
  const variance = squares / Math.max(rows - 2, 1);
  const grouped = (m: number, n: number) =>
    (few * (m * m * p + 2 * m * n * q + n * n * r)) / determinant ** 2;
  return {
    a,
    b,
    aError: Math.sqrt(Math.max((variance * yy) / determinant, grouped(yy, -xy))),
    bError: Math.sqrt(Math.max((variance * xx) / determinant, grouped(-xy, xx))),
  };
}

/** Squared sine between the columns below which they count as one. */
const LEAST_DETERMINANT = 0.01;
