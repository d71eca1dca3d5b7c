import { Matrix, SingularValueDecomposition, solve } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { dot } from '../../sim/common/numeric.ts';
import { closestSum, orthogonalColumns } from '../../sim/common/orthogonalColumns.ts';
import { randomStream } from '../../sim/common/random.ts';

const stream = randomStream(7, 'orthogonal columns');
const drawn = (rows: number, columns: number) =>
  Array.from({ length: rows }, () => Array.from({ length: columns }, () => stream.normal()));

describe('orthogonalColumns(columns)', () => {
  it('gives the singular values of a library of matrices, from 1e-3 to 1e3', () => {
    const rows = drawn(40, 5).map((row) => row.map((each, k) => each * 10 ** (1.5 * k - 3)));
    const { squares } = orthogonalColumns(new Matrix(rows).transpose().to2DArray());
    const found = squares.map(Math.sqrt).sort((a, b) => b - a);
    new SingularValueDecomposition(new Matrix(rows)).diagonal.forEach((singular, k) => {
      expect(found[k]! / singular).toBeCloseTo(1, 9);
    });
  });

  it('turns them onto each other, by turns that give the columns back', () => {
    const columns = drawn(4, 12);
    const { turned, turns, squares } = orthogonalColumns(columns);
    for (const [k, left] of turned.entries())
      for (const right of turned.slice(0, k)) expect(dot(left, right)).toBeCloseTo(0, 12);
    for (const [k, column] of columns.entries())
      column.forEach((each, i) => {
        expect(turns.reduce((sum, turn, j) => sum + turn[k]! * turned[j]![i]!, 0)).toBeCloseTo(each, 12);
      });
    expect(squares.reduce((a, b) => a + b)).toBeCloseTo(
      columns.reduce((sum, column) => sum + dot(column, column), 0),
      10,
    );
  });

  it('gives 0 for a column that is the sum of two others', () => {
    const [one, other] = drawn(2, 6);
    const { squares } = orthogonalColumns([one!, other!, one!.map((each, i) => each + other![i]!)]);
    expect(Math.min(...squares)).toBeLessThan(1e-28);
  });
});

describe('closestSum(rows, measured)', () => {
  it('solves as a library does', () => {
    const rows = drawn(30, 3);
    const measured = rows.map(([a, b, c]) => 2 * a! - 3 * b! + 0.5 * c! + 0.01 * stream.normal());
    const expected = solve(new Matrix(rows), Matrix.columnVector(measured), true).to1DArray();
    closestSum(rows, measured).forEach((factor, k) => {
      expect(factor).toBeCloseTo(expected[k]!, 12);
    });
  });

  it('shares evenly between terms that no row tells apart', () => {
    expect(
      closestSum(
        [
          [1, 1],
          [2, 2],
          [3, 3],
        ],
        [2, 4, 6],
      ),
    ).toEqual([expect.closeTo(1, 12), expect.closeTo(1, 12)]);
  });
});
