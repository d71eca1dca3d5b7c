import { range } from 'd3-array';
import { IANAZone } from 'luxon';
import { expect, test, vi } from 'vitest';
import { civilShift, doublingZones } from '../../../sim/weather/clock/fitDaylightSaving.ts';

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

const DAY_MS = 24 * HOUR_MS;

// A zone is asked at the ends of stretches of days: none may be so long that clocks change there and back within it.
test('the three weeks of summer time that one zone had between two changes are seen, whenever a series begins', () => {
  const [from_ms, to_ms] = [Date.UTC(2010, 8, 10), Date.UTC(2010, 8, 30)];
  for (const before of range(1, 30)) {
    const days_ms = range(from_ms - before * DAY_MS, to_ms + 30 * DAY_MS, DAY_MS);
    const { shift_min } = civilShift('Africa/Cairo', days_ms);
    const summer = days_ms.filter((ms, d) => shift_min[d]! > 0 && ms > from_ms - 25 * DAY_MS);
    expect([summer[0], summer.at(-1)]).toEqual([from_ms, to_ms]);
  }
});

// And none so short that a year takes more looks than two a fortnight.
test('a zone is asked twice a fortnight as long as its clocks stand, and day by day where they change', () => {
  const asked = vi.spyOn(IANAZone.prototype, 'offset');
  const year_ms = range(Date.UTC(2021, 0, 1), Date.UTC(2022, 0, 1), DAY_MS);
  civilShift('Asia/Tokyo', year_ms);
  expect(asked).toHaveBeenCalledTimes(50);
  asked.mockClear();
  civilShift('Europe/Berlin', year_ms);
  expect(asked.mock.calls.length).toBeLessThan(120);
  vi.restoreAllMocks();
});
