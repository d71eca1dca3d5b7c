import { describe, expect, it } from 'vitest';
import { INVENTED_PLACE } from '../../data-samples/make/inventedYear.ts';
import { randomStream } from '../../sim/common/random.ts';
import type { MadeWinter } from '../../sim/trial/MadeTrials.ts';
import { heldBoth, oddsOf } from '../../sim/trial/odds.ts';
import { winterMaker } from '../../sim/trial/WinterMaker.ts';
import { inventedRecord } from '../climate/inventedRecord.ts';

const winter = (failedNights: number): MadeWinter => ({
  nights: 365,
  failedNights,
  short_h: 2 * failedNights,
  out_h: 0,
  longestSpell: Math.min(failedNights, 3),
  smallestReserve_J: 10 - failedNights,
  lightGiven_lm_h: 100,
  failed: Array.from({ length: failedNights }, (_, n) => 150 + n),
});

describe('odds of made winters', () => {
  it('count kept winters, and say what a typical one and the worst in ten come to', () => {
    const made = Array.from({ length: 100 }, (_, k) => winter(k < 40 ? 0 : k % 10));
    const odds = oddsOf(made, [], 10, 365);
    expect(odds.keeps.share).toBeCloseTo(
      made.filter(({ failedNights }) => failedNights === 0).length / 100,
      12,
    );
    expect(odds.failedNights.typical).toBe(1);
    expect(odds.failedNights.worst).toBe(9);
    expect(odds.short_h.mean).toBeCloseTo(2 * odds.failedNights.mean, 12);
    expect(odds.failingShare[150]).toBeCloseTo(
      made.filter(({ failedNights }) => failedNights > 0).length / 100,
      12,
    );
    expect(odds.failingShare[149]).toBe(0);
  });

  it('are no better known than the winters on file near 0 and 1, however many are made', () => {
    const all = Array.from({ length: 5000 }, () => winter(0));
    const again = Array.from({ length: 16 }, () => all.slice(0, 20));
    const few = oddsOf(all, again, 5, 365);
    const many = oddsOf(all, again, 12, 365);
    expect(few.keeps.high).toBe(1);
    // Wilson's lower end at n of n is n / (n + z^2), here of 15 and of 36.
    expect(few.keeps.low).toBeCloseTo(15 / (15 + 1.6449 ** 2), 3);
    expect(many.keeps.low).toBeCloseTo(36 / (36 + 1.6449 ** 2), 3);
  });

  it('are wider where climates learned again differ, and no narrower than drawing makes them', () => {
    const random = randomStream(1, 'odds');
    const drawn = (share: number, count: number) =>
      Array.from({ length: count }, () => winter(random.uniform() < share ? 0 : 4));
    const made = drawn(0.5, 400);
    const alike = Array.from({ length: 16 }, () => drawn(0.5, 24));
    const apart = Array.from({ length: 16 }, (_, k) => drawn(k % 2 === 0 ? 0.25 : 0.75, 24));
    const width = (samples: MadeWinter[][]) => {
      const { keeps } = oddsOf(made, samples, 200, 365);
      return keeps.high - keeps.low;
    };
    // Drawing alone: 1.645 times the root of .25 / 400 to either side.
    expect(width(alike)).toBeGreaterThan(0.08);
    expect(width(alike)).toBeLessThan(0.11);
    // However far apart, 200 winters on file could have been counted: 1.645 times the root of .25 / 200.
    expect(width(apart)).toBeCloseTo(2 * 1.6449 * Math.sqrt(0.25 / 200), 1.5);
    expect(width(apart)).toBeGreaterThan(width(alike));
    // 400 winters were made where what is on file is worth 200: half of the doubt is that of the file.
    expect(oddsOf(made, apart, 200, 365).learningShare).toBeCloseTo(0.5, 12);
  });

  it('are worth the winters on file and no more where no climate was learned again', () => {
    const made = Array.from({ length: 400 }, (_, k) => winter(k % 4));
    const { keeps, failedNights, learningShare } = oddsOf(made, [], 10, 365);
    expect(keeps.winters).toBe(10);
    expect(learningShare).toBeCloseTo(1 - 10 / 400, 12);
    // 0 to 3 nights, one as often as another: variance 1.25; of 10 winters on file, and 400 made.
    const off = 1.6449 * Math.sqrt(1.25 / 10 + 1.25 / 399);
    expect(failedNights.meanHigh - failedNights.mean).toBeCloseTo(off, 6);
    const all = oddsOf(
      made.map(() => winter(0)),
      [],
      10,
      365,
    );
    expect(all.keeps.low).toBeCloseTo(10 / (10 + 1.6449 ** 2), 3);
  });

  it('hold both of two beliefs, in hours as in nights', () => {
    const one = Array.from({ length: 100 }, (_, k) => winter(k % 2));
    const other = Array.from({ length: 100 }, (_, k) => winter(k % 12));
    const apart = oddsOf(one, [], 10, 365);
    const held = heldBoth(apart, other, 10);
    const second = oddsOf(other, [], 10, 365);
    for (const figure of ['failedNights', 'short_h'] as const) {
      expect(held[figure].meanLow).toBe(apart[figure].meanLow);
      expect(held[figure].meanHigh).toBe(second[figure].meanHigh);
    }
    expect(held.keeps.low).toBe(second.keeps.low);
    expect(held.keeps.high).toBe(apart.keeps.high);
  });
});

describe('winters made from a record', () => {
  const site = { ...INVENTED_PLACE, timeZone: 'Europe/Berlin', albedo: 0.2 };

  it('need five of them', () => {
    expect(() => winterMaker({ record: inventedRecord(4), site, seed: 1 })).toThrow(
      /4 winters whose dark half is on record: \d{4}/,
    );
    expect(winterMaker({ record: inventedRecord(5), site, seed: 1 }).learnedWinters).toBe(5);
  });

  it('say so where there is none', () => {
    expect(() => winterMaker({ record: inventedRecord(0), site, seed: 1 })).toThrow(
      'no winter whose dark half is on record',
    );
  });
});

describe('winters made from months', () => {
  const site = { ...INVENTED_PLACE, timeZone: 'Europe/Berlin', albedo: 0.2 };
  const months = <Value>(value: Value) => new Array<Value>(12).fill(value);
  const common = { air_degC: months(8), persistence: { daily: 0.5, lasting: 0.4, winter: 0.01 } };

  it('say what they rest on, each thing once', () => {
    const clearness_shares = { days: [0, 0.5, 1], months: months([0.05, 0.3, 0.6]) };
    const climate = { ...common, clearness_shares, learned_from: 'twelve winters' };
    expect(winterMaker({ climate, site, seed: 1 }).words).toBe(
      'twelve winters: days by the days of a record, month by month (may be a tenth off), hours by formula',
    );
  });
});
