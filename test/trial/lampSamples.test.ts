import { sampleCorrelation, standardDeviation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { randomStream } from '../../sim/common/random.ts';
import { normalSampler } from '../../sim/trial/lampSamples.ts';

const solved = {
  values: [3, -1],
  errors: [2, 0.5],
  covariance: [
    [4, -0.8],
    [-0.8, 0.25],
  ],
  residuals: [],
  sumOfSquares: 0,
  freedom: 0,
};

describe('normalSampler', () => {
  it('draws with the errors and the correlation of the covariance', () => {
    const sample = normalSampler(solved, 1.5);
    const stream = randomStream(1, 'test');
    const drawn = Array.from({ length: 4000 }, () => sample(stream));
    const [left, right] = [0, 1].map((k) => drawn.map((values) => values[k]!)) as [number[], number[]];
    // Of 4000 draws a standard deviation is known to 1.1 percent, a correlation of -0.8 to 0.006; four of each.
    expect(Math.abs(standardDeviation(left) / 3 - 1)).toBeLessThan(0.045);
    expect(Math.abs(standardDeviation(right) / 0.75 - 1)).toBeLessThan(0.045);
    expect(Math.abs(sampleCorrelation(left, right) + 0.8)).toBeLessThan(0.024);
  });
});
