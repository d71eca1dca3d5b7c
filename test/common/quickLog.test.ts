import { describe, expect, it } from 'vitest';
import { quickLog, quickLog1p } from '../../sim/common/quickLog.ts';

describe('quickLog', () => {
  it('is the natural logarithm to 3e-13, over all magnitudes', () => {
    let worst = 0;
    for (let power = -280; power <= 280; power += 0.0137)
      worst = Math.max(
        worst,
        Math.abs(quickLog(10 ** power) - Math.log(10 ** power)) / Math.max(1, Math.abs(power) / 30),
      );
    expect(worst).toBeLessThan(3e-13);
    for (let x = 0.01; x < 100; x *= 1.00013) expect(Math.abs(quickLog(x) - Math.log(x))).toBeLessThan(3e-13);
  });

  it('leaves what is no normal number to Math.log', () => {
    for (const x of [0, -1, 1e-310, Number.POSITIVE_INFINITY, Number.NaN])
      expect(quickLog(x)).toEqual(Math.log(x));
  });
});

describe('quickLog1p', () => {
  it('is within 1e-10 of itself, from the smallest to the largest', () => {
    for (let size = 1e-12; size < 50; size *= 1.0017) {
      expect(Math.abs(quickLog1p(size) / Math.log1p(size) - 1)).toBeLessThan(1e-10);
      if (size < 0.999) expect(Math.abs(quickLog1p(-size) / Math.log1p(-size) - 1)).toBeLessThan(1e-10);
    }
  });
});
