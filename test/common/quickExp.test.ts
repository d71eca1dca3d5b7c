import { describe, expect, it } from 'vitest';
import { quickExp } from '../../sim/common/quickExp.ts';

describe('the quick exponential', () => {
  it('agrees with Math.exp to 2e-15 from -40 to 40, and to 3e-14 to the ends of its range', () => {
    for (let k = -40_000; k <= 40_000; k++) {
      const x = k * 1.000_137e-3;
      expect(Math.abs(quickExp(x) / Math.exp(x) - 1)).toBeLessThan(2e-15);
    }
    for (let x = -699.9; x < 700; x += 0.317)
      expect(Math.abs(quickExp(x) / Math.exp(x) - 1)).toBeLessThan(3e-14);
  });

  it('hands on what lies beyond its range, and NaN', () => {
    expect(quickExp(-800)).toBe(0);
    expect(quickExp(800)).toBe(Number.POSITIVE_INFINITY);
    expect(quickExp(Number.NaN)).toBeNaN();
    expect(quickExp(0)).toBe(1);
  });

  it('does not fall where its argument rises across a row of its table', () => {
    for (let row = -2000; row <= 2000; row++) {
      const edge = ((row + 0.5) * Math.LN2) / 256;
      expect(quickExp(edge + 1e-12)).toBeGreaterThan(quickExp(edge - 1e-12));
    }
  });
});
