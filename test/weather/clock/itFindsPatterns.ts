import { expect, it } from 'vitest';
import { sunClockCheck } from '../../../sim/weather/clock/sunClockCheck.ts';
import { type Climate, type InventedSky, inventedSky } from './inventedSky.ts';

export const YEAR: Omit<InventedSky, 'climate' | 'seed' | 'offset_min' | 'latitude_deg'> = {
  longitude_deg: 10,
  start_ms: Date.UTC(2021, 0, 1),
  days: 365,
  step_s: 3600,
};
export const DAY_MS = 86_400_000;

/** Three tests of a year under a sky: one clock, summer time, a label that changes. */
export function itFindsPatterns(climate: Climate, latitude_deg: number): void {
  const sky = { ...YEAR, climate, latitude_deg, seed: 70 + latitude_deg };

  it(`says one clock of a year under ${climate} at ${latitude_deg} degrees, in mean time, the site fitting`, () => {
    const clockCheck = sunClockCheck(inventedSky({ ...sky, offset_min: 30 }));
    expect(clockCheck.pattern).toBe('one clock');
    expect(clockCheck.segments).toHaveLength(1);
    expect(clockCheck.site.verdict).toBe('fits');
    expect(Math.abs(clockCheck.reading.offset_min - 30)).toBeLessThanOrEqual(10);
  });

  it(`finds summer time under ${climate} at ${latitude_deg} degrees`, () => {
    const summer = (ms: number): boolean => ms > Date.UTC(2021, 2, 28, 1) && ms < Date.UTC(2021, 9, 31, 1);
    const clockCheck = sunClockCheck(inventedSky({ ...sky, offset_min: (ms) => (summer(ms) ? 150 : 90) }));
    expect(clockCheck.pattern).toBe('summer time');
    expect(clockCheck.zone).toBe('Europe/Berlin');
    expect(Math.abs(clockCheck.reading.offset_min - 90)).toBeLessThanOrEqual(10);
  });

  it(`places a label that changes in June under ${climate} at ${latitude_deg} degrees within days`, () => {
    const change = Date.UTC(2021, 5, 15);
    const clockCheck = sunClockCheck(inventedSky({ ...sky, offset_min: (ms) => (ms < change ? -30 : 30) }));
    expect(clockCheck.pattern).toBe('changes');
    expect(clockCheck.segments).toHaveLength(2);
    const [before, after] = clockCheck.segments;
    expect(Math.abs(before!.reading.offset_min + 30)).toBeLessThanOrEqual(10);
    expect(Math.abs(after!.reading.offset_min - 30)).toBeLessThanOrEqual(10);
    // Limited by cloud: a day under thick cloud says little about an hour.
    const days = climate === 'overcast' ? 7 : 2;
    expect(Math.abs(after!.firstDay_ms - change)).toBeLessThanOrEqual(days * DAY_MS);
  });
}
