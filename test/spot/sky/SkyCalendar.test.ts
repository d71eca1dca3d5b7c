import { expect, it } from 'vitest';
import { skyCalendar } from '../../../sim/spot/sky/SkyCalendar.ts';
import { sunColumns } from '../../../sim/sun/sunColumns.ts';
import { GARDEN } from '../inventedHours.ts';

const start_ms = Date.UTC(2024, 1, 28);
const hours = { start_ms, count: 48 };

it('skyCalendar takes over a sun of its own hours and site, and no other', () => {
  const sun = sunColumns(start_ms, 48, GARDEN);
  expect(skyCalendar({ ...hours, sun }, GARDEN).sun).toBe(sun);
  const elsewhere = { ...GARDEN, longitude_deg: 11 };
  const others = [
    skyCalendar({ ...hours, sun: sunColumns(start_ms, 48, elsewhere) }, GARDEN),
    skyCalendar({ ...hours, sun: sunColumns(Date.UTC(2023, 1, 28), 48, GARDEN) }, GARDEN),
    skyCalendar({ ...hours, sun: sunColumns(start_ms, 24, GARDEN) }, GARDEN),
  ];
  for (const calendar of others) expect(calendar.sun).toEqual(sun);
});

it('skyCalendar differs from year to year: the same date of the next year has another sun', () => {
  const noon = 36;
  const leap = skyCalendar(hours, GARDEN).sun;
  const next = skyCalendar({ start_ms: Date.UTC(2025, 1, 28), count: 48 }, GARDEN).sun;
  const apart_deg = Math.abs(leap.altitude_deg[noon]! - next.altitude_deg[noon]!);
  expect(apart_deg).toBeGreaterThan(0.05);
  expect(apart_deg).toBeLessThan(0.5);
});
