import { describe, expect, it } from 'vitest';
import { compensatedSum } from '../../sim/common/numeric.ts';
import { randomStream } from '../../sim/common/random.ts';

describe('compensatedSum', () => {
  const stream = randomStream(1, 'sum', 0);
  const list = Array.from({ length: 8760 }, () => 10 ** (8 * stream.normal()) * Math.sign(stream.normal()));

  it('gives a typed column the same sum as a list, to the last bit', () => {
    expect(compensatedSum(Float64Array.from(list))).toBe(compensatedSum(list));
  });

  it('loses nothing to values that cancel', () => {
    const there = Float64Array.from(list, Math.cbrt);
    const back = there.map((value) => -value);
    expect(compensatedSum(Float64Array.of(...there, 0.1, ...back))).toBeCloseTo(0.1, 12);
    expect(compensatedSum(Float64Array.of(1, 1e100, 1, -1e100))).toBe(2);
  });

  it('of nothing is 0, of a missing value missing', () => {
    expect(compensatedSum(new Float64Array(0))).toBe(0);
    expect(compensatedSum(Float64Array.of(1, Number.NaN))).toBeNaN();
  });
});
