import { Body, Observer, SearchAltitude } from 'astronomy-engine';
import { describe, expect, it } from 'vitest';
import { nightCalendar, winterOf } from '../../sim/sun/NightCalendar.ts';
import type { Site } from '../../sim/sun/Site.ts';
import { geometricAltitude, solarPosition } from '../../sim/sun/solarPosition.ts';

const site = (latitude_deg: number, longitude_deg = 10, timeZone = 'Europe/Berlin'): Site => ({
  latitude_deg,
  longitude_deg,
  elevation_m: 0,
  timeZone,
  albedo: 0.2,
});
const YEAR_MS = Date.UTC(2023, 0, 1);
const DAY_MS = 86_400_000;

describe('nightCalendar', () => {
  it.each([54, -54, 66.5])(
    'has dusk and dawn where an independent ephemeris has them, at latitude %f',
    (latitude_deg) => {
      const here = site(latitude_deg);
      const calendar = nightCalendar(YEAR_MS, 8760, here);
      const observer = new Observer(latitude_deg, here.longitude_deg, 0);
      let worst = 0;
      let held = 0;
      for (let k = 0; k < calendar.count; k += 9) {
        if (calendar.hasNight[k] === 0) continue;
        const noon = new Date(calendar.noon_ms[k]!);
        const dusk = SearchAltitude(Body.Sun, observer, -1, noon, 1, -6)!;
        const dawn = SearchAltitude(Body.Sun, observer, 1, dusk, 1, -6)!;
        // A grazing sun turns hundredths of a degree into minutes: leave out nights of under two hours.
        if (dawn.date.getTime() - dusk.date.getTime() < 7_200_000) continue;
        held++;
        worst = Math.max(
          worst,
          Math.abs(dusk.date.getTime() - calendar.dusk_ms[k]!),
          Math.abs(dawn.date.getTime() - calendar.dawn_ms[k]!),
        );
      }
      expect(held).toBeGreaterThan(20);
      // 0.01 degrees of a sun that sinks 5 degrees an hour, in milliseconds.
      expect(worst).toBeLessThan(15_000);
    },
  );

  it.each([-90, -70, 0, 54, 66.5, 70, 90])(
    'is finite, in order and covers the record at latitude %f',
    (latitude_deg) => {
      const calendar = nightCalendar(YEAR_MS, 8760, site(latitude_deg));
      const { noon_ms, dusk_ms, dawn_ms, count } = calendar;
      expect(noon_ms).toHaveLength(count + 1);
      expect(noon_ms[0]!).toBeLessThanOrEqual(YEAR_MS);
      expect(noon_ms[1]!).toBeGreaterThan(YEAR_MS);
      expect(noon_ms[count]!).toBeGreaterThanOrEqual(YEAR_MS + 365 * DAY_MS);
      expect(noon_ms[count - 1]!).toBeLessThan(YEAR_MS + 365 * DAY_MS);
      for (let k = 0; k < count; k++) {
        expect(
          noon_ms[k]! <= dusk_ms[k]! && dusk_ms[k]! <= dawn_ms[k]! && dawn_ms[k]! <= noon_ms[k + 1]!,
        ).toBe(true);
      }
      expect(new Set(calendar.eveningDate).size).toBe(count);
      expect(calendar.complete.reduce((sum, one) => sum + one, 0)).toBe(count - 2);
    },
  );

  it('calls a night white exactly when the sun stays above 6 degrees below the horizon', () => {
    const calendar = nightCalendar(YEAR_MS, 8760, site(62));
    const white = calendar.hasNight.reduce((sum, one) => sum + 1 - one, 0);
    expect(white).toBeGreaterThan(30);
    for (let k = 0; k < calendar.count; k++) {
      let lowest = 90;
      for (let ms = calendar.noon_ms[k]!; ms < calendar.noon_ms[k + 1]!; ms += 600_000) {
        lowest = Math.min(lowest, geometricAltitude(solarPosition(ms, 62, 10).altitude_deg));
      }
      // Ten-minute samples miss the lowest point by at most 0.01 degrees.
      if (Math.abs(lowest + 6) > 0.02) expect(calendar.hasNight[k]).toBe(lowest <= -6 ? 1 : 0);
      if (calendar.hasNight[k] === 0) expect(calendar.dawn_ms[k]).toBe(calendar.dusk_ms[k]);
    }
  });

  it('lets the dark last from noon to noon where the sun never rises above 6 degrees below', () => {
    const calendar = nightCalendar(Date.UTC(2023, 11, 10), 240, site(80));
    expect(calendar.dusk_ms).toEqual(calendar.noon_ms.slice(0, -1));
    expect(calendar.dawn_ms).toEqual(calendar.noon_ms.slice(1));
  });

  it('names a night by the civil date of its evening in the zone of the site', () => {
    const calendar = nightCalendar(Date.UTC(2023, 5, 1), 48, site(-36.8, 174.8, 'Pacific/Auckland'));
    const evening = calendar.eveningDate.map((date, k) => [
      date,
      new Date(calendar.dusk_ms[k]!).toISOString().slice(0, 10),
    ]);
    // Auckland stands 12 hours before UTC: dusk at about 17:40 is 05:40 UTC of the same date.
    for (const [civil, utc] of evening) expect(civil).toBe(utc);
    const american = nightCalendar(Date.UTC(2023, 0, 1), 24, site(45, -122, 'America/Los_Angeles'));
    // Dusk on the last evening of the year falls on 1 January, UTC.
    expect(american.eveningDate[0]).toBe('2022-12-31');
    expect(new Date(american.dusk_ms[0]!).toISOString().slice(0, 10)).toBe('2023-01-01');
  });
});

it('winterOf runs from July to June north of the equator and with the year south of it', () => {
  expect(winterOf('2024-06-30', 54)).toBe('2023/24');
  expect(winterOf('2024-07-01', 54)).toBe('2024/25');
  expect(winterOf('2025-01-15', 54)).toBe('2024/25');
  expect(winterOf('1999-12-31', 54)).toBe('1999/00');
  expect(winterOf('2025-01-15', -36)).toBe('2025');
  expect(winterOf('2025-12-31', -36)).toBe('2025');
});
