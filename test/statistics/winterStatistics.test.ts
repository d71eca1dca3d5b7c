import { describe, expect, it } from 'vitest';
import { verdictOf } from '../../sim/statistics/overWinters.ts';
import { winterStatistics } from '../../sim/statistics/winterStatistics.ts';
import { winterOf } from '../../sim/sun/NightCalendar.ts';
import { nightRow, nightsFrom } from './nightRow.ts';

const OVER_NEW_YEAR = { '2025-12-30': 1, '2025-12-31': 2, '2025-01-01': 3, '2025-01-02': 1 };

describe('a joined year', () => {
  it('is one complete winter whose spell runs over its seam at New Year', () => {
    const [winter, ...others] = winterStatistics(nightsFrom('2025-01-01', 365, OVER_NEW_YEAR), 54);
    expect(others).toEqual([]);
    expect(winter!.complete).toBe(true);
    expect(winter!.longestSpell).toEqual({ from: '2025-12-30', to: '2025-01-02', nights: 4 });
    expect(winter!.failedNights).toBe(4);
    expect(winter!.short_h).toBe(7);
    expect(winter!.worstNight).toEqual({
      night: '2025-01-01',
      short_h: 3,
      dim_h: 0,
      out_h: 3,
      cause: 'ran-empty',
    });
    expect(winter!.darkestFortnight!.short_h).toBe(7);
    expect(winter!.darkestFortnight!.failedNights).toBe(4);
  });

  it('runs a spell over its seam in whatever month the record begins', () => {
    for (const [first, dark, spell] of [
      ['2024-11-01', { '2025-10-30': 1, '2025-10-31': 1, '2024-11-01': 1 }, ['2025-10-30', '2024-11-01', 3]],
      ['2024-08-15', { '2025-08-13': 1, '2025-08-14': 1, '2024-08-15': 1 }, ['2025-08-13', '2024-08-15', 3]],
      ['2025-07-01', { '2025-12-31': 1, '2026-01-01': 1 }, ['2025-12-31', '2026-01-01', 2]],
    ] as const) {
      const [winter] = winterStatistics(nightsFrom(first, 365, dark), 54);
      expect(winter!.longestSpell).toEqual({ from: spell[0], to: spell[1], nights: spell[2] });
    }
  });

  it('has its dark half in June south of the equator, and joins there too', () => {
    const dark = { '2025-06-14': 1, '2025-06-15': 1, '2024-06-16': 1 };
    const [winter] = winterStatistics(nightsFrom('2024-06-16', 365, dark), -40);
    expect(winter!.longestSpell).toEqual({ from: '2025-06-14', to: '2024-06-16', nights: 3 });
  });
});

describe('a record of several years', () => {
  const named = (first: string, count: number, latitude_deg: number, dark: Record<string, number> = {}) =>
    winterStatistics(
      nightsFrom(first, count, dark, (night) => ({ winter: winterOf(night, latitude_deg) })),
      latitude_deg,
    );

  it('is grouped by season years, of which only whole ones are complete', () => {
    const winters = named('2022-01-01', 365 * 2, 54);
    expect(winters.map((winter) => [winter.winter, winter.complete, winter.nights])).toEqual([
      ['2021/22', false, 181],
      ['2022/23', true, 365],
      ['2023/24', false, 184],
    ]);
    expect(named('2022-01-01', 365 * 2, -40).map((winter) => [winter.winter, winter.complete])).toEqual([
      ['2022', true],
      ['2023', true],
    ]);
  });

  it.each([
    ['2022-10-01', '2023-03-31', 54, 'dark-months'],
    // Three days may lack at either end of the dark months, not four.
    ['2022-10-04', '2023-03-28', 54, 'dark-months'],
    ['2022-10-05', '2023-03-31', 54, 'part'],
    ['2022-10-01', '2023-03-27', 54, 'part'],
    ['2022-08-10', '2023-06-30', 54, 'dark-months'],
    ['2022-07-01', '2023-06-30', 54, 'whole'],
    ['2022-04-01', '2022-09-30', -40, 'dark-months'],
    ['2022-10-01', '2022-12-31', -40, 'part'],
  ])('holds of a winter, from %s to %s at %d degrees: %s', (first, last, latitude_deg, extent) => {
    const [winter, ...others] = named(
      first,
      1 + (Date.parse(last) - Date.parse(first)) / 86_400_000,
      latitude_deg,
    );
    expect(others).toEqual([]);
    expect(winter).toMatchObject({ extent, complete: extent !== 'part' });
  });

  it('rests its verdict on whole winters, or their dark months, only', () => {
    expect(verdictOf(named('2022-10-01', 182, 54, { '2023-01-10': 2 }))).toBe('broken');
    expect(verdictOf(named('2022-10-01', 182, 54))).toBe('kept');
    expect(verdictOf(named('2022-01-01', 365 * 2, 54, { '2022-01-10': 2 }))).toBe('kept');
    expect(verdictOf(named('2022-01-01', 365 * 2, 54, { '2023-01-10': 2 }))).toBe('broken');
    expect(verdictOf(named('2022-01-01', 181, 54))).toBe('no-whole-winter');
    const white = nightsFrom('2025-01-01', 365, {}, () => ({ outcome: 'nothing-promised', promised_h: 0 }));
    expect(verdictOf(winterStatistics(white, 80))).toBe('nothing-promised');
  });
});

describe('figures of a winter', () => {
  it('count only nights with a promise, and forgive short hours within the tolerance', () => {
    const rows = [
      nightRow('2025-12-01', { short_h: 0.2, outcome: 'kept' }),
      nightRow('2025-12-02', { outcome: 'nothing-promised', promised_h: 0, lit_h: 0 }),
      nightRow('2025-12-03', { short_h: 4 }),
    ];
    const [winter] = winterStatistics(rows, 54);
    expect(winter!.nights).toBe(2);
    expect(winter!.failedNights).toBe(1);
    expect(winter!.short_h).toBeCloseTo(4.2, 12);
    expect(winter!.promised_h).toBe(12);
    expect(winter!.darkestFortnight).toBeUndefined();
  });

  it('tell failed nights that went out from those that were dim', () => {
    const rows = nightsFrom(
      '2025-12-01',
      5,
      { '2025-12-02': 2, '2025-12-03': 3, '2025-12-04': 1 },
      (night) => ({
        dim_h: night === '2025-12-02' ? 2 : night === '2025-12-03' ? 1 : 0,
      }),
    );
    const [winter] = winterStatistics(rows, 54);
    expect(winter).toMatchObject({ failedNights: 3, failedOut: 2, short_h: 6, dim_h: 3, out_h: 3 });
  });

  it('name the smallest reserve at a dawn and its night', () => {
    const rows = nightsFrom('2025-12-01', 30, {}, (night) =>
      night === '2025-12-20' ? { reserveDawn_J: -12 } : { reserveDawn_J: 100 },
    );
    const [winter] = winterStatistics(rows, 54);
    expect(winter!.smallestReserve_J).toBe(-12);
    expect(winter!.smallestReserveNight).toBe('2025-12-20');
  });

  it('count the nights from the end of the longest spell to a dawn with half of the usual reserve', () => {
    const rows = nightsFrom('2025-12-01', 40, { '2025-12-10': 2, '2025-12-11': 2 }, (night) => ({
      reserveDawn_J: night >= '2025-12-10' && night < '2025-12-15' ? 20 : 100,
    }));
    // The spell ends with the 11th; the 15th is the fourth night after.
    expect(winterStatistics(rows, 54)[0]!.recoveryNights).toBe(4);
    expect(winterStatistics(nightsFrom('2025-12-01', 40), 54)[0]!.recoveryNights).toBeUndefined();
  });

  it('take the median and the 90 percent quantile, type 7, of the short hours over failed nights', () => {
    const dark = Object.fromEntries([1, 2, 3, 4, 5].map((h) => [`2025-12-0${h}`, h]));
    const [winter] = winterStatistics(nightsFrom('2025-12-01', 30, dark), 54);
    expect(winter!.shortMedian_h).toBe(3);
    expect(winter!.short_90_percent_h).toBeCloseTo(4.6, 12);
  });
});

const spellOf = (rows: ReturnType<typeof nightsFrom>) => winterStatistics(rows, 54)[0]!.longestSpell;
const fortnightOf = (rows: ReturnType<typeof nightsFrom>) => winterStatistics(rows, 54)[0]!.darkestFortnight;
const failing = (dates: readonly string[], hours = 2) =>
  Object.fromEntries(dates.map((date) => [date, hours]));

describe('the longest spell', () => {
  it('is the earliest of equal runs of failed nights', () => {
    const failed = failing(['2025-12-03', '2025-12-04', '2025-12-10', '2025-12-11', '2025-12-20']);
    expect(spellOf(nightsFrom('2025-12-01', 30, failed))).toEqual({
      from: '2025-12-03',
      to: '2025-12-04',
      nights: 2,
    });
  });

  it('may reach the last night', () => {
    const failed = failing(['2025-12-29', '2025-12-30']);
    expect(spellOf(nightsFrom('2025-12-01', 30, failed))?.to).toBe('2025-12-30');
  });

  it('is none where no night failed, and is broken by a night without a promise', () => {
    expect(spellOf(nightsFrom('2025-12-01', 30))).toBeUndefined();
    const rows = nightsFrom('2025-12-01', 30, failing(['2025-12-03', '2025-12-04', '2025-12-05']), (night) =>
      night === '2025-12-04' ? { outcome: 'nothing-promised' } : {},
    );
    expect(spellOf(rows)?.nights).toBe(1);
  });
});

describe('the darkest fortnight', () => {
  it('holds the most short hours, not the most failed nights', () => {
    const rows = nightsFrom('2025-11-01', 90, {
      ...failing(['2025-11-03', '2025-11-04', '2025-11-05', '2025-11-06'], 0.5),
      ...failing(['2025-12-20'], 6),
    });
    const fortnight = fortnightOf(rows)!;
    expect(fortnight.short_h).toBe(6);
    expect(fortnight.failedNights).toBe(1);
    expect(fortnight.from <= '2025-12-20' && fortnight.to >= '2025-12-20').toBe(true);
  });

  it('is the one with least light on the cell where none is darker', () => {
    const rows = nightsFrom('2025-11-01', 90, {}, (night) => ({
      lightOnCell_Wh_m2: night >= '2025-12-10' && night <= '2025-12-23' ? 40 : 100,
    }));
    expect(fortnightOf(rows)).toMatchObject({
      from: '2025-12-10',
      to: '2025-12-23',
      lightOnCell_Wh_m2: 14 * 40,
    });
  });

  it('needs fourteen nights', () => {
    expect(fortnightOf(nightsFrom('2025-11-01', 13))).toBeUndefined();
    expect(fortnightOf(nightsFrom('2025-11-01', 14))?.to).toBe('2025-11-14');
  });

  it('has no lowest capacitor voltage, rather than an endless one, where every night is white', () => {
    const rows = nightsFrom('2025-06-01', 20, {}, () => ({ capacitorLowest_V: Number.NaN }));
    expect(fortnightOf(rows)!.lowestCapacitor_V).toBeNaN();
  });
});
