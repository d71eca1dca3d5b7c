import { describe, expect, it } from 'vitest';
import { rankCorrelation } from '../../sim/trial/spread.ts';

describe('rankCorrelation', () => {
  it('gives 1 - 6 * sum of squared rank differences / (n^3 - n) where no values are equal', () => {
    // A worked example of textbooks (from memory): ten pairs, squared differences of ranks 194, -29/165.
    const left = [106, 100, 86, 101, 99, 103, 97, 113, 112, 110];
    const right = [7, 27, 2, 50, 28, 29, 20, 12, 6, 17];
    expect(rankCorrelation(left, right)).toBeCloseTo(-29 / 165, 12);
  });

  it('is NaN where a column never changes or there are too few pairs', () => {
    expect(rankCorrelation([1, 2, 3], [0, 0, 0])).toBeNaN();
    expect(rankCorrelation([1, 2], [3, 4])).toBeNaN();
  });
});
