import { Body, Equator, MakeTime, Observer, SiderealTime } from 'astronomy-engine';
import { describe, expect, it } from 'vitest';
import { sunClockCheck } from '../../../sim/weather/clock/sunClockCheck.ts';
import { CLIMATES, inventedSky } from './inventedSky.ts';
import { DAY_MS, itFindsPatterns, YEAR } from './itFindsPatterns.ts';
import { itHoldsTheTruth } from './itHoldsTheTruth.ts';

/** Apparent solar time ahead of mean solar time at Greenwich, from an almanac's right ascension, minutes. */
function equationOfTime_min(ms: number): number {
  const time = MakeTime(new Date(ms));
  const { ra } = Equator(Body.Sun, time, new Observer(0, 0, 0), true, true);
  const apparent = SiderealTime(time) - ra + 12;
  const mean = (ms % DAY_MS) / 3_600_000;
  return (((((apparent - mean) % 24) + 36) % 24) - 12) * 60;
}

describe('sunClockCheck', () => {
  for (const climate of ['clear', 'overcast', 'morning-fog'] as const)
    for (const latitude_deg of [-38, 0, 52, 64]) itFindsPatterns(climate, latitude_deg);

  const SEEDS = Array.from({ length: 24 }, (_, i) => i + 1);
  itHoldsTheTruth(SEEDS, 3600);
  itHoldsTheTruth(SEEDS.slice(0, 9), 600);

  it('tells true solar time from a clock', () => {
    for (const climate of CLIMATES) {
      for (const latitude_deg of [-38, 0, 48]) {
        const sky = { ...YEAR, climate, latitude_deg, seed: 70 + latitude_deg };
        const clockCheck = sunClockCheck(
          inventedSky({ ...sky, offset_min: (ms) => 70 + equationOfTime_min(ms) }),
        );
        expect(clockCheck.pattern, `${climate} ${latitude_deg}`).toBe('true solar time');
        expect(Math.abs(clockCheck.reading.offset_min - 70)).toBeLessThanOrEqual(10);
      }
    }
  });

  it('places a change in fifteen years, of which only every few days are looked at', () => {
    const change = Date.UTC(2012, 8, 3);
    const clockCheck = sunClockCheck(
      inventedSky({
        ...YEAR,
        seed: 4,
        climate: 'mixed',
        latitude_deg: 55,
        start_ms: Date.UTC(2005, 0, 1),
        days: 5478,
        offset_min: (ms) => (ms < change ? 30 : 90),
      }),
    );
    expect(clockCheck.daysUsed).toBeLessThan(clockCheck.usableDays / 2);
    expect(clockCheck.pattern).toBe('changes');
    expect(clockCheck.segments).toHaveLength(2);
    expect(Math.abs(clockCheck.segments[1]!.firstDay_ms - change)).toBeLessThanOrEqual(2 * DAY_MS);
  });

  it('finds a wrong hemisphere and swapped coordinates by the lengths of the days', () => {
    for (const climate of ['mixed', 'overcast'] as const) {
      for (const [latitude_deg, longitude_deg] of [
        [52, 5],
        [-34, 18.5],
        [60, 24],
        [41, -74],
      ] as const) {
        const series = inventedSky({
          ...YEAR,
          seed: 8,
          climate,
          latitude_deg,
          longitude_deg,
          offset_min: 30,
        });
        const flipped = sunClockCheck({ ...series, latitude_deg: -latitude_deg });
        expect(flipped.site.verdict).toBe('cannot be right');
        const sign = flipped.site.slips.find(({ slip }) => slip === 'sign of latitude');
        expect(Math.abs(sign!.offset_min - 30)).toBeLessThanOrEqual(10);
        if (Math.abs(longitude_deg) > 66) continue;
        const swapped = sunClockCheck({
          ...series,
          latitude_deg: longitude_deg,
          longitude_deg: latitude_deg,
        });
        if (Math.abs(latitude_deg - longitude_deg) < 30) continue;
        expect(swapped.site.verdict).toBe('cannot be right');
        const swap = swapped.site.slips.find(({ slip }) => slip === 'swapped');
        expect(Math.abs(swap!.offset_min - 30)).toBeLessThanOrEqual(10);
      }
    }
  });
});
