import { Body, Equator, MakeTime, Observer, SiderealTime } from 'astronomy-engine';
import { describe, expect, it } from 'vitest';
import { sunClockCheck } from '../../../sim/weather/clock/sunClockCheck.ts';
import { CLIMATES, type InventedSky, inventedSky } from './inventedSky.ts';

const year: Omit<InventedSky, 'climate' | 'seed' | 'offset_min' | 'latitude_deg'> = {
  longitude_deg: 10,
  start_ms: Date.UTC(2021, 0, 1),
  days: 365,
  step_s: 3600,
};
const day = (ms: number): string => new Date(ms).toISOString().slice(0, 10);
const DAY_MS = 86_400_000;

/** Apparent solar time ahead of mean solar time at Greenwich, from an almanac's right ascension, minutes. */
function equationOfTime_min(ms: number): number {
  const time = MakeTime(new Date(ms));
  const { ra } = Equator(Body.Sun, time, new Observer(0, 0, 0), true, true);
  const apparent = SiderealTime(time) - ra + 12;
  const mean = (ms % DAY_MS) / 3_600_000;
  return (((((apparent - mean) % 24) + 36) % 24) - 12) * 60;
}

describe('sunClockCheck', () => {
  for (const climate of ['clear', 'overcast', 'morning-fog'] as const) {
    for (const latitude_deg of [-38, 0, 52, 64]) {
      const sky = { ...year, climate, latitude_deg, seed: 70 + latitude_deg };

      it(`says one clock of a year under ${climate} at ${latitude_deg} degrees, in mean time, the site fitting`, () => {
        const witness = sunClockCheck(inventedSky({ ...sky, offset_min: 30 }));
        expect(witness.pattern).toBe('one clock');
        expect(witness.meanTime).not.toBe('no');
        expect(witness.segments).toHaveLength(1);
        expect(witness.site.verdict).toBe('fits');
        expect(Math.abs(witness.reading.offset_min - 30)).toBeLessThanOrEqual(10);
      });

      it(`finds summer time and its days under ${climate} at ${latitude_deg} degrees`, () => {
        const summer = (ms: number): boolean =>
          ms > Date.UTC(2021, 2, 28, 1) && ms < Date.UTC(2021, 9, 31, 1);
        const witness = sunClockCheck(inventedSky({ ...sky, offset_min: (ms) => (summer(ms) ? 150 : 90) }));
        expect(witness.pattern).toBe('summer time');
        expect(witness.daylightSaving?.zone).toBe('Europe/Berlin');
        expect(witness.daylightSaving?.forward_min).toBe(60);
        expect(Math.abs(witness.reading.offset_min - 90)).toBeLessThanOrEqual(10);
        expect(witness.segments.map(({ firstDay_ms }) => day(firstDay_ms))).toEqual([
          '2021-01-01',
          '2021-03-28',
          '2021-10-31',
        ]);
      });

      it(`places a label that changes in June under ${climate} at ${latitude_deg} degrees within days`, () => {
        const change = Date.UTC(2021, 5, 15);
        const witness = sunClockCheck(inventedSky({ ...sky, offset_min: (ms) => (ms < change ? -30 : 30) }));
        expect(witness.pattern).toBe('changes');
        expect(witness.segments).toHaveLength(2);
        const [before, after] = witness.segments;
        expect(Math.abs(before!.reading.offset_min + 30)).toBeLessThanOrEqual(10);
        expect(Math.abs(after!.reading.offset_min - 30)).toBeLessThanOrEqual(10);
        // Limited by cloud: a day under thick cloud says little about an hour.
        const days = climate === 'overcast' ? 7 : 2;
        expect(Math.abs(after!.firstDay_ms - change)).toBeLessThanOrEqual(days * DAY_MS);
      });
    }
  }

  it('tells a trueSolar from a clock', () => {
    for (const climate of CLIMATES) {
      for (const latitude_deg of [-38, 0, 48]) {
        const sky = { ...year, climate, latitude_deg, seed: 70 + latitude_deg };
        const witness = sunClockCheck(
          inventedSky({ ...sky, offset_min: (ms) => 70 + equationOfTime_min(ms) }),
        );
        expect(witness.pattern, `${climate} ${latitude_deg}`).toBe('trueSolar');
        expect(Math.abs(witness.reading.offset_min - 70)).toBeLessThanOrEqual(10);
      }
    }
  });

  it('places a change in fifteen years, of which only every few days are looked at', () => {
    const change = Date.UTC(2012, 8, 3);
    const witness = sunClockCheck(
      inventedSky({
        ...year,
        seed: 4,
        climate: 'mixed',
        latitude_deg: 55,
        start_ms: Date.UTC(2005, 0, 1),
        days: 5478,
        offset_min: (ms) => (ms < change ? 30 : 90),
      }),
    );
    expect(witness.daysUsed).toBeLessThan(witness.usableDays / 2);
    expect(witness.pattern).toBe('changes');
    expect(witness.segments).toHaveLength(2);
    expect(Math.abs(witness.segments[1]!.firstDay_ms - change)).toBeLessThanOrEqual(2 * DAY_MS);
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
          ...year,
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

  it('shows first and last light near their time at the right offset, and no light with the sun down', () => {
    const { evidence } = sunClockCheck(
      inventedSky({ ...year, seed: 2, climate: 'mixed', latitude_deg: 50, offset_min: 30 }),
    );
    expect(evidence.mirror).toBeGreaterThan(0.8);
    expect(evidence.clearSkyFit).toBeGreaterThan(0.9);
    expect(evidence.lightWithSunDown).toBeLessThan(0.002);
    expect(evidence.darkWithSunUp).toBeLessThan(0.002);
    // Hourly grain: the mean over a year of whole steps.
    expect(Math.abs(evidence.firstLightLate_min - evidence.lastLightEarly_min)).toBeLessThan(10);
  });
});
