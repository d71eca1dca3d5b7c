import { expect, it } from 'vitest';
import { repeatedDays } from '../../../sim/weather/quality/repeatedDays.ts';
import type { SunLight } from '../../../sim/weather/quality/SunLight.ts';

const TELLING = 5;

/** Days of five telling hours each, no two values alike but for one day that repeats the one before. */
function recordWithCopy(days: number): { values: Float64Array; light: SunLight } {
  const count = days * 24;
  const values = new Float64Array(count);
  const hourAngle_deg = Float64Array.from({ length: count }, (_, i) => ((i % 24) - 12) * 15);
  for (let day = 0; day < days; day++) {
    for (let k = 0; k < TELLING; k++) values[day * 24 + 10 + k] = 100 + 0.01 * (day * TELLING + k);
  }
  const copied = Math.floor(days / 2) * 24;
  values.copyWithin(copied, copied - 24, copied);
  const sun = { start_ms: 0, count, hourAngle_deg, upShare: new Float64Array(count).fill(1) };
  return { values, light: { sun } as unknown as SunLight };
}

// Of the sixty hours on the twelve days before none is equal, so an hour is by chance with 1 in 62, five hours with
// 1 in 62^5, on any of the days: 0.65 times in a million records of 600 days, 1.4 times in those of 1300.
it.each([
  [600, 1],
  [1300, 0],
])('in %d days a repeated day of five hours of light is found %d times', (days, times) => {
  const { values, light } = recordWithCopy(days);
  expect(repeatedDays(values, light, 0.01)).toHaveLength(times);
});
