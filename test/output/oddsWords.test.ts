import { describe, expect, test } from 'vitest';
import { nightCount, oddsWords, ofHundred } from '../../sim/output/oddsWords.ts';
import { type WinterOdds, winterOdds } from '../../sim/statistics/WinterOdds.ts';

const oddsOf = (...failedNights: number[]): WinterOdds =>
  winterOdds(
    failedNights.map((failed, k) => ({
      winter: `${2000 + k}/${String(k + 1).padStart(2, '0')}`,
      complete: true,
      nights: 365,
      failedNights: failed,
      short_h: failed,
    })),
  )!;

describe('several winters in words', () => {
  test('name the typical, the worst in ten, the worst and the chance', () => {
    expect(oddsWords(oddsOf(0, 0, 2, 4, 5, 5, 6, 7, 8, 9, 11, 12, 15))).toBe(
      'about 6 failed nights in a typical winter, about 14 in the worst winter in ten, 15 in the worst of 13; keeps its promise in 2 of 13 winters, so in 5 to 38 of a hundred (Wilson, 90 percent)',
    );
  });

  test('have no worst in ten below ten winters, and count what is few without about', () => {
    expect(oddsWords(oddsOf(0, 0, 1, 9))).toBe(
      '0 or 1 failed nights in a typical winter, 9 in the worst of 4; keeps its promise in 2 of 4 winters, so in 18 to 82 of a hundred (Wilson, 90 percent)',
    );
    expect(oddsWords(oddsOf(0, 0, 3))).toContain('no failed night in a typical winter, 3 in the worst of 3');
    expect(oddsWords(oddsOf(1, 1, 3))).toContain('about 1 failed night in a typical winter');
  });

  test('say that all were kept, and no more than that allows', () => {
    expect(oddsWords(oddsOf(...new Array(12).fill(0)))).toBe(
      'no failed night; keeps its promise in all 12 winters, so in 81 to 100 of a hundred (Wilson, 90 percent)',
    );
  });

  test('round an interval outwards', () => {
    const { chance } = oddsOf(0, 1);
    expect(ofHundred({ ...chance, low: 0.051, high: 0.379 })).toBe('5 to 38');
    expect(ofHundred({ ...chance, low: 0.05, high: 0.38 })).toBe('5 to 38');
    expect(ofHundred({ ...chance, low: 1, high: 1 })).toBe('100');
  });

  test('leave a median between two counts there', () => {
    expect([nightCount(6), nightCount(6.5), nightCount(0)]).toEqual(['6', '6 or 7', '0']);
  });
});
