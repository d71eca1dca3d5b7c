import { describe, expect, it } from 'vitest';
import { darkestFortnight, longestSpell } from '../../sim/statistics/spells.ts';
import { nightsFrom } from './nightRow.ts';

const dark = (dates: readonly string[], hours = 2) => Object.fromEntries(dates.map((date) => [date, hours]));

describe('the longest spell', () => {
  it('is the earliest of equal runs of failed nights', () => {
    const failed = dark(['2025-12-03', '2025-12-04', '2025-12-10', '2025-12-11', '2025-12-20']);
    expect(longestSpell(nightsFrom('2025-12-01', 30, failed))).toEqual({
      from: '2025-12-03',
      to: '2025-12-04',
      nights: 2,
    });
  });

  it('may reach the last night', () => {
    const failed = dark(['2025-12-29', '2025-12-30']);
    expect(longestSpell(nightsFrom('2025-12-01', 30, failed))?.to).toBe('2025-12-30');
  });

  it('is none where no night failed, and is broken by a night without a promise', () => {
    expect(longestSpell(nightsFrom('2025-12-01', 30))).toBeUndefined();
    const rows = nightsFrom('2025-12-01', 30, dark(['2025-12-03', '2025-12-04', '2025-12-05']), (night) =>
      night === '2025-12-04' ? { outcome: 'nothing-promised' } : {},
    );
    expect(longestSpell(rows)?.nights).toBe(1);
  });
});

describe('the darkest fortnight', () => {
  it('holds the most short hours, not the most failed nights', () => {
    const rows = nightsFrom('2025-11-01', 90, {
      ...dark(['2025-11-03', '2025-11-04', '2025-11-05', '2025-11-06'], 0.5),
      ...dark(['2025-12-20'], 6),
    });
    const fortnight = darkestFortnight(rows)!;
    expect(fortnight.short_h).toBe(6);
    expect(fortnight.failedNights).toBe(1);
    expect(fortnight.from <= '2025-12-20' && fortnight.to >= '2025-12-20').toBe(true);
  });

  it('is the one with least light on the cell where none is darker', () => {
    const rows = nightsFrom('2025-11-01', 90, {}, (night) => ({
      lightOnCell_Wh_m2: night >= '2025-12-10' && night <= '2025-12-23' ? 40 : 100,
    }));
    expect(darkestFortnight(rows)).toMatchObject({
      from: '2025-12-10',
      to: '2025-12-23',
      lightOnCell_Wh_m2: 14 * 40,
    });
  });

  it('needs fourteen nights', () => {
    expect(darkestFortnight(nightsFrom('2025-11-01', 13))).toBeUndefined();
    expect(darkestFortnight(nightsFrom('2025-11-01', 14))?.to).toBe('2025-11-14');
  });

  it('has no lowest capacitor voltage, rather than an endless one, where every night is white', () => {
    const rows = nightsFrom('2025-06-01', 20, {}, () => ({ capacitorLowest_V: Number.NaN }));
    expect(darkestFortnight(rows)!.lowestCapacitor_V).toBeNaN();
  });
});
