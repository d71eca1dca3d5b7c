import { expect, it } from 'vitest';
import { preferredNumbers } from '../../sim/common/preferredNumbers.ts';

it('a decade of each series has as many as its name says, and starts anew at ten times the first', () => {
  for (const [series, count] of [
    ['E3', 3],
    ['E6', 6],
    ['E12', 12],
    ['E24', 24],
  ] as const) {
    const decade = preferredNumbers(series, 0.01, 0.0999);
    expect(decade).toHaveLength(count);
    // Even steps but for rounding: at most 5 percent of it.
    for (const [k, value] of decade.entries())
      expect(Math.abs(value / (0.01 * 10 ** (k / count)) - 1)).toBeLessThan(0.05);
    expect(preferredNumbers(series, 0.1, 0.999)).toEqual(
      decade.map((value) => Number((10 * value).toFixed(3))),
    );
  }
});

it('takes ends that are preferred, and goes over decades', () => {
  expect(preferredNumbers('E12', 330, 1000)).toEqual([330, 390, 470, 560, 680, 820, 1000]);
  expect(preferredNumbers('E6', 340, 460)).toEqual([]);
  expect(preferredNumbers('E3', 0.5, 50)).toEqual([1, 2.2, 4.7, 10, 22, 47]);
});
