import { dot, square } from './numeric.ts';

/** Columns turned until they stand on each other, which lays bare what a sum of squares hangs on. */
export interface OrthogonalColumns {
  /** The columns, turned. */
  turned: readonly Float64Array[];
  /** Of each turned column its share of every one given; orthogonal, of length 1. */
  turns: readonly Float64Array[];
  /** Length of each turned column, squared: a singular value's square. */
  squares: readonly number[];
}

/** Rounds over all pairs; a handful settles what is as small as here. */
const MOST_ROUNDS = 60;

/**
 * Columns turned in pairs until all are orthogonal: the singular values of a small matrix.
 *
 * in: columns, of one length, no fewer numbers in each than there are columns
 * out: turned columns, turns and squares, in the order of the columns given
 * valid: for a dozen columns; small singular values come out as exact as large ones
 * source: Hestenes1958
 */
export function orthogonalColumns(columns: readonly ArrayLike<number>[]): OrthogonalColumns {
  const turned = columns.map((column) => Float64Array.from(column));
  const turns = columns.map((_, k) => Float64Array.from(columns, (_, l) => (k === l ? 1 : 0)));
  const enough = Number.EPSILON * (columns[0]?.length ?? 0);
  for (let round = 0, moved = true; moved && round < MOST_ROUNDS; round++) {
    moved = false;
    for (let k = 1; k < columns.length; k++) {
      for (let l = 0; l < k; l++) {
        const [left, right] = [turned[l]!, turned[k]!];
        const [along, leftSquare, rightSquare] = [dot(left, right), dot(left, left), dot(right, right)];
        if (!(Math.abs(along) > enough * Math.sqrt(leftSquare * rightSquare))) continue;
        moved = true;
        const half = (rightSquare - leftSquare) / (2 * along);
        const tangent = (half < 0 ? -1 : 1) / (Math.abs(half) + Math.sqrt(1 + half * half));
        turnPair(left, right, tangent);
        turnPair(turns[l]!, turns[k]!, tangent);
      }
    }
  }
  return { turned, turns, squares: turned.map((column) => dot(column, column)) };
}

function turnPair(left: Float64Array, right: Float64Array, tangent: number): void {
  const cosine = 1 / Math.sqrt(1 + tangent * tangent);
  const sine = cosine * tangent;
  for (let i = 0; i < left.length; i++) {
    const [one, other] = [left[i]!, right[i]!];
    left[i] = cosine * one - sine * other;
    right[i] = sine * one + cosine * other;
  }
}

/**
 * The factors of a few terms whose sums come closest to what was measured, by least squares; 0 along what the rows do not
 * tell apart.
 *
 * in: rows, the terms of each measurement, at least as many as there are terms; measured, of each row
 */
export function closestSum(rows: readonly (readonly number[])[], measured: readonly number[]): number[] {
  const terms = rows[0]!.map((_, k) => rows.map((row) => row[k]!));
  const { turned, turns, squares } = orthogonalColumns(terms);
  const least = square(Number.EPSILON * rows.length) * Math.max(...squares);
  const along = turned.map((column, j) => (squares[j]! > least ? dot(column, measured) / squares[j]! : 0));
  return terms.map((_, k) => turns.reduce((sum, turn, j) => sum + turn[k]! * along[j]!, 0));
}
