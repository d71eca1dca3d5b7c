import { expect, test } from 'vitest';
import { doublingZones } from '../../../sim/weather/clock/fitDaylightSaving.ts';

const NIGHT_MS = Date.UTC(2022, 9, 30);
const HOUR_MS = 3_600_000;

test.each([
  [1, -1, 'Europe/London'],
  [2, 12, 'Europe/Berlin'],
  [3, 25, 'Europe/Helsinki'],
])(
  "a time that stands twice at %i o'clock in autumn names the zone that shows it twice",
  (hour, longitude_deg, zone) => {
    expect(doublingZones(NIGHT_MS + hour * HOUR_MS, longitude_deg)).toContain(zone);
  },
);

test('no zone shows an ordinary time twice, nor one far from the site', () => {
  expect(doublingZones(NIGHT_MS + 12 * HOUR_MS, 12)).toEqual([]);
  expect(doublingZones(NIGHT_MS + 2 * HOUR_MS, 150)).toEqual([]);
});
