import { describe, expect, it } from 'vitest';
import { quantile } from '../../sim/statistics/quantile.ts';

describe('the quantile', () => {
  it('is of type 7 on the sample 15, 20, 35, 40, 50', () => {
    // R. J. Hyndman and Y. Fan, The American Statistician 50 (1996) 361, definition 7, evaluated apart (exact).
    expect(quantile([50, 15, 40, 20, 35], 0.4)).toBeCloseTo(29, 12);
    expect(quantile([50, 15, 40, 20, 35], 0.05)).toBeCloseTo(16, 12);
    expect(quantile([50, 15, 40, 20, 35], 0)).toBe(15);
    expect(quantile([50, 15, 40, 20, 35], 1)).toBe(50);
    expect(quantile([7], 0.9)).toBe(7);
  });
});
