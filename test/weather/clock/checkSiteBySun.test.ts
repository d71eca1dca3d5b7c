import { expect, it } from 'vitest';
import { checkSiteBySun } from '../../../sim/weather/clock/checkSiteBySun.ts';
import { foldSeries } from '../../../sim/weather/clock/foldSeries.ts';
import { inventedSky } from './inventedSky.ts';

// Each clear day of April tells the hemisphere by some five units; twenty are asked for before a place is doubted.
it.each([
  [4, 'fits', 14],
  [6, 'cannot be right', 24],
])('%d clear days under the other hemisphere: the claimed place %s', (days, verdict, gain) => {
  const series = inventedSky({
    seed: 8,
    climate: 'clear',
    latitude_deg: 40,
    longitude_deg: 5,
    start_ms: Date.UTC(2021, 3, 10),
    days,
    step_s: 3600,
    offset_min: 30,
  });
  const claimed = { ...series, latitude_deg: -40 };
  const site = checkSiteBySun(foldSeries(claimed), claimed);
  expect(site.verdict).toBe(verdict);
  const { betterBy } = site.slips.find(({ slip }) => slip === 'sign of latitude')!;
  expect(Math.abs(betterBy - gain)).toBeLessThan(1);
});
