import fc from 'fast-check';
import { expect, it } from 'vitest';
import { leastAssignment } from '../../sim/sizing/leastAssignment.ts';

/** The least sum by trying every way. */
function leastOfAll(costs: readonly (readonly bigint[])[], taken: readonly number[] = []): bigint {
  const row = costs[taken.length];
  if (row === undefined) return 0n;
  const sums = row.flatMap((cost, k) => (taken.includes(k) ? [] : [cost + leastOfAll(costs, [...taken, k])]));
  return sums.sort((a, b) => (a < b ? -1 : 1))[0]!;
}

const table = fc
  .tuple(
    fc.integer({ min: 1, max: 6 }),
    fc.integer({ min: 0, max: 2 }),
    fc.constantFrom(3n, 1000n, 10n ** 18n),
  )
  .chain(([rows, more, most]) =>
    fc.array(fc.array(fc.bigInt(0n, most), { minLength: rows + more, maxLength: rows + more }), {
      minLength: rows,
      maxLength: rows,
    }),
  );

it('leastAssignment costs as little as the best of all ways, no column taken twice', () => {
  fc.assert(
    fc.property(table, (costs) => {
      const columns = leastAssignment(costs);
      expect(new Set(columns).size).toBe(costs.length);
      const sum = columns.reduce((total, column, row) => total + costs[row]![column]!, 0n);
      expect(sum).toBe(leastOfAll(costs));
    }),
    { seed: 15, numRuns: 600 },
  );
});

it('leastAssignment takes a cheap column from a row that can better do without it', () => {
  expect(
    leastAssignment([
      [1n, 2n, 9n],
      [1n, 9n, 9n],
    ]),
  ).toEqual([1, 0]);
});

it('leastAssignment of nothing is nothing, and of equals the first', () => {
  expect(leastAssignment([])).toEqual([]);
  expect(leastAssignment([[5n, 5n, 5n]])).toEqual([0]);
});
