import { expect, it } from 'vitest';
import { findSegments } from '../../../sim/weather/clock/findSegments.ts';
import { foldSeries } from '../../../sim/weather/clock/foldSeries.ts';
import { firstLook } from '../../../sim/weather/clock/negativeLogLikelihood.ts';
import { inventedSky } from './inventedSky.ts';

const DAY_MS = 86_400_000;
const start_ms = Date.UTC(2021, 3, 1);

// Under thick cloud a day says so little that the cost of a change is met between the sixth and the seventh day of it.
it.each([
  [6, 1],
  [7, 2],
])('of forty dull days of which the last %d are an hour on, findSegments makes %d', (changed, segments) => {
  const change = start_ms + (40 - changed) * DAY_MS;
  const series = inventedSky({
    seed: 5,
    climate: 'overcast',
    latitude_deg: 50,
    longitude_deg: 5,
    start_ms,
    days: 40,
    step_s: 3600,
    offset_min: (ms) => (ms < change ? 0 : 60),
  });
  const days = foldSeries(series);
  expect(findSegments(days, firstLook(days))).toHaveLength(segments);
});
