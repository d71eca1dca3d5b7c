import { describe, expect, test } from 'vitest';
import { compareAnswer } from '../../sim/output/compareAnswer.ts';
import { winterOdds } from '../../sim/statistics/WinterOdds.ts';
import type { ComparedTrial } from '../../sim/trial/Comparison.ts';
import { smallCompared, smallComparison } from './smallComparison.ts';

function said(trials: ComparedTrial[], changes = {}): string[] {
  return compareAnswer(smallComparison({ trials, ...changes })).map((words) =>
    words.replace(/[\u2068\u2069]/g, ''),
  );
}
const kept = (lamp: string, smallestReserve_J: number, price?: number): ComparedTrial =>
  smallCompared({
    lamp,
    verdict: 'kept',
    failedNights: 0,
    smallestReserve_J,
    money: { currency: 'EUR', price, unpriced: [], lightForUnit_lm_h: 100 },
  });

describe('the answer of a comparison', () => {
  test('names what keeps its promise, most to spare first, and what breaks it, least first', () => {
    const worse = smallCompared({ spot: 'north', failedNights: 30, short_h: 90 });
    expect(said([worse, kept('double', 20), smallCompared(), kept('triple', 154.3)])).toEqual([
      '2 of these 4 keep their promise.',
      'Kept by triple on lawn (154 J to spare in its worst morning) and double on lawn (20 J to spare in its worst morning).',
      'Broken by single on lawn (18 of 365 nights, 30.8 h short) and single on north (30 of 365 nights, 90.0 h short).',
    ]);
  });

  test('says which costs least of those that keep it, all of them where they cost the same', () => {
    expect(said([kept('triple', 154, 20), kept('double', 20, 14.5), smallCompared()]).at(-1)).toBe(
      'The least that keeps it: double on lawn, with parts for 14.50 EUR.',
    );
    expect(said([kept('triple', 154, 20), kept('double', 20, 20)]).at(-1)).toBe(
      'The least that keeps it: triple on lawn and double on lawn, with parts for 20.00 EUR.',
    );
    expect(said([kept('triple', 154), kept('double', 20)]).join(' ')).not.toContain('The least');
  });

  test.each([
    [[kept('a', 1)], 'It keeps its promise.'],
    [[smallCompared()], 'It breaks its promise.'],
    [[kept('a', 1), kept('b', 1)], 'Both keep their promise.'],
    [[kept('a', 1), kept('b', 1), kept('c', 1)], 'All 3 keep their promise.'],
    [[smallCompared(), smallCompared()], 'Neither keeps its promise.'],
    [[kept('a', 1), smallCompared()], 'One of these 2 keeps its promise.'],
  ])('counts them in words', (trials, first) => {
    expect(said(trials)[0]).toBe(first);
  });

  test('counts what has no verdict apart', () => {
    const none = smallCompared({ verdict: 'nothing-promised', nights: 0, failedNights: 0 });
    expect(said([kept('a', 1), none])).toContain('Without a verdict: 1 trial.');
    expect(said([none])).toEqual(['None of these has a verdict: no whole winter on record holds a promise.']);
  });

  test('of many names the ends', () => {
    const many = Array.from({ length: 9 }, (_, k) => kept(`lamp-${k}`, k + 1));
    expect(said(many)[1]).toBe(
      'Kept by 9, from lamp-8 on lawn (9 J to spare in its worst morning) to lamp-0 on lawn (1 J to spare in its worst morning).',
    );
  });

  test('of several winters says how many, and the year of the worst', () => {
    const winters = (failed: number[]) =>
      winterOdds(
        failed.map((failedNights, k) => ({
          winter: `20${10 + k}/${11 + k}`,
          complete: true,
          nights: 365,
          failedNights,
          short_h: failedNights,
        })),
      )!;
    const often = smallCompared({ lamp: 'often', winters: 3, failedNights: 40, odds: winters([0, 0, 40]) });
    const seldom = smallCompared({ lamp: 'seldom', winters: 3, failedNights: 3, odds: winters([1, 1, 1]) });
    expect(said([seldom, often])[1]).toBe(
      'Broken by often on lawn (kept in 2 of 3 winters; no failed night in a typical one, 40 in the worst, 2012/13) and ' +
        'seldom on lawn (kept in 0 of 3 winters; about 1 failed night in a typical one, 1 in the worst, 2010/11).',
    );
    expect(said([{ ...kept('a', 0), winters: 3, odds: winters([0, 0, 0]) }])[1]).toBe(
      'Kept by a on lawn (in all 3 winters, nothing to spare in its worst morning).',
    );
  });
});
