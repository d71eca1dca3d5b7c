import { describe, expect, it } from 'vitest';
import { type CountedWinter, wilson, winterOdds } from '../../sim/statistics/WinterOdds.ts';

describe("wilson's interval", () => {
  // R. G. Newcombe, Statistics in Medicine 17 (1998) 857-872, table I, method 3 (from memory), 95 percent: four decimals.
  it.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])('of %i in %i is the published one', (kept, winters, low, high) => {
    const ours = wilson(kept, winters, 0.95);
    expect(Math.abs(ours.low - low)).toBeLessThan(6e-5);
    expect(Math.abs(ours.high - high)).toBeLessThan(6e-5);
  });

  it('solves (share - p)^2 = z^2 p (1 - p) / n at both ends, whole number of winters or not', () => {
    const z = 1.6448536;
    for (const [kept, winters] of [
      [2, 13],
      [7, 10],
      [3.4, 8.2],
      [0.5, 1.5],
    ] as const) {
      const { low, high } = wilson(kept, winters, 0.9);
      for (const p of [low, high])
        expect(Math.abs((kept / winters - p) ** 2 - (z * z * p * (1 - p)) / winters)).toBeLessThan(1e-6);
      expect(low).toBeLessThan(kept / winters);
      expect(high).toBeGreaterThan(kept / winters);
    }
  });

  it('of none and of all reaches to exactly 0 and 1, and is the mirror image of the other', () => {
    expect(wilson(0, 10, 0.9).low).toBe(0);
    expect(wilson(10, 10, 0.9).high).toBe(1);
    // n / (n + z^2), by hand.
    expect(wilson(10, 10, 0.9).low).toBeCloseTo(10 / (10 + 1.6448536 ** 2), 6);
    expect(wilson(0, 10, 0.9).high).toBeCloseTo(1 - wilson(10, 10, 0.9).low, 12);
  });

  it('narrows with more winters, and refuses what was never counted', () => {
    const width = (winters: number) =>
      wilson(winters / 2, winters, 0.9).high - wilson(winters / 2, winters, 0.9).low;
    expect(width(40)).toBeLessThan(width(20));
    for (const [kept, winters, confidence] of [
      [1, 0, 0.9],
      [-1, 5, 0.9],
      [6, 5, 0.9],
      [1, 5, 1],
      [Number.NaN, 5, 0.9],
    ] as const)
      expect(() => wilson(kept, winters, confidence)).toThrow('no interval');
  });
});

const winter = (year: number, failedNights: number, short_h = failedNights): CountedWinter => ({
  winter: `${year}/${(year + 1) % 100}`,
  complete: true,
  nights: 365,
  failedNights,
  short_h,
});

describe('the odds of winters', () => {
  it('are none of one winter, nor of whole ones in which nothing is promised or parts', () => {
    expect(winterOdds([winter(2010, 3)])).toBeUndefined();
    expect(winterOdds([winter(2010, 3), { ...winter(2011, 9), complete: false }])).toBeUndefined();
    expect(winterOdds([winter(2010, 3), { ...winter(2011, 0), nights: 0 }])).toBeUndefined();
  });

  it('name typical, best and worst, ties by short hours and then the earlier', () => {
    const odds = winterOdds([
      winter(2010, 4, 6),
      winter(2011, 0, 1),
      winter(2012, 9, 8),
      winter(2013, 9, 9),
      winter(2014, 0, 0),
    ])!;
    expect(odds).toMatchObject({
      winters: 5,
      kept: 2,
      typicalWinter: '2010/11',
      worstWinter: '2013/14',
      bestWinter: '2014/15',
    });
    expect(odds.failedNights).toEqual({ mean: 4.4, typical: 4, best: 0, worst: 9 });
    expect(odds.short_h).toEqual({ mean: 4.8, typical: 6, best: 0, worst: 9 });
    expect(odds.chance).toEqual({
      share: 0.4,
      ...wilson(2, 5, 0.9),
      winters: 5,
      confidence: 0.9,
      method: 'Wilson',
    });
  });

  it('have a worst in ten from ten winters on, which one of the next ten passes', () => {
    const upTo = (count: number) => Array.from({ length: count }, (_, k) => winter(2000 + k, k));
    expect(winterOdds(upTo(9))!.failedNights.worstInTen).toBeUndefined();
    // Definition 6: the place 0.9 (n + 1) among those sorted, counted from 1.
    expect(winterOdds(upTo(10))!.failedNights.worstInTen).toBeCloseTo(8.9, 12);
    expect(winterOdds(upTo(19))!.failedNights.worstInTen).toBeCloseTo(17, 12);
  });
});
