import { describe, expect, it } from 'vitest';
import { randomStream } from '../../sim/common/random.ts';
import { batchShares } from '../../sim/statistics/batchShares.ts';

describe('lamps and winters told apart', () => {
  it('only lamps differ, only winters differ', () => {
    const lamps = batchShares(Array.from({ length: 6 }, () => [0, 2, 4, 8]));
    expect([lamps.parts, lamps.weather, lamps.both]).toEqual([1, 0, 0]);
    expect(lamps.failedNights).toEqual([0, 2, 4, 8]);
    expect([lamps.breakTypical, lamps.breakWorstInTen]).toEqual([3, 3]);
    const winters = batchShares([0, 1, 5, 9].map((nights) => [nights, nights, nights]));
    expect([winters.parts, winters.weather, winters.both]).toEqual([0, 1, 0]);
    expect([winters.breakTypical, winters.breakWorstInTen]).toEqual([3, 3]);
  });

  it('nothing differs', () => {
    const none = batchShares([
      [0, 0],
      [0, 0],
    ]);
    expect(none.parts).toBeNaN();
    expect(none.breakWorstInTen).toBe(0);
  });

  it('gives back the variances that numbers were drawn with', () => {
    const random = randomStream(1, 'batch');
    const draw = (count: number, size: number) => Array.from({ length: count }, () => size * random.normal());
    const [lamps, winters] = [draw(200, 3), draw(200, 2)];
    const { parts, weather, both } = batchShares(
      winters.map((winter) => lamps.map((lamp) => 50 + lamp + winter + random.normal())),
    );
    // Variances 9, 4 and 1: a standard error of a variance of 200 draws is a tenth of it.
    expect(parts).toBeCloseTo(9 / 14, 1);
    expect(weather).toBeCloseTo(4 / 14, 1);
    expect(both).toBeCloseTo(1 / 14, 1);
    expect(parts + weather + both).toBeCloseTo(1, 12);
  });
});
