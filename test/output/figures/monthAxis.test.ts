import { expect, test } from 'vitest';
import { monthTicks } from '../../../sim/output/figures/monthAxis.ts';

test('months of an axis begin where they begin, a joined year begins again', () => {
  const ticks = monthTicks(['2025-11-30', '2025-12-01', '2025-12-31', '2025-01-01']);
  expect(ticks.map(({ index, length, name, newYear }) => [index, length, name, newYear])).toEqual([
    [0, 1, 'Nov', true],
    [1, 2, 'Dec', false],
    [3, 1, 'Jan', true],
  ]);
});
