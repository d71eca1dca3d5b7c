import { describe, expect, it } from 'vitest';
import { quickExp } from '../../sim/common/quickExp.ts';

describe('quickExp', () => {
  it('is e to the power x to 1e-12 of itself, across the ends of its table', () => {
    let worst = 0;
    for (let x = -70; x < 70; x += 0.001237) worst = Math.max(worst, Math.abs(quickExp(x) / Math.exp(x) - 1));
    expect(worst).toBeLessThan(1e-12);
    for (const x of [-64, 64, -0.0625, 0.0625, 0])
      expect(Math.abs(quickExp(x) / Math.exp(x) - 1)).toBeLessThan(1e-12);
  });

  it('leaves what lies beyond to exp', () => {
    expect(quickExp(-1000)).toBe(0);
    expect(quickExp(Number.POSITIVE_INFINITY)).toBe(Number.POSITIVE_INFINITY);
    expect(quickExp(Number.NaN)).toBeNaN();
  });
});
