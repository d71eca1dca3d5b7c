import { expect, test } from 'vitest';
import { wholeYearsIn } from '../../sim/common/time.ts';

test.each([
  [Date.UTC(2021, 0, 1), 8760, 1],
  [Date.UTC(2020, 0, 1), 8784, 1],
  [Date.UTC(2019, 11, 31, 23), 8784, 1],
  [Date.UTC(2020, 6, 1), 8760, 1],
  [Date.UTC(2019, 0, 1), 8760 + 8784, 2],
  [Date.UTC(2021, 0, 1), 8759, 0],
  [Date.UTC(2021, 0, 1), 8761, 0],
  [Date.UTC(2020, 0, 1), 8760, 0],
  [Date.UTC(2020, 9, 1), 182 * 24, 0],
  [Date.UTC(2020, 9, 1), 0, 0],
])('wholeYearsIn counts the years from %d over %d hours', (start_ms, count, years) => {
  expect(wholeYearsIn(start_ms, count)).toBe(years);
});
