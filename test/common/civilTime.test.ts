import { DateTime, IANAZone } from 'luxon';
import { expect, test } from 'vitest';
import { civilInstant, civilOffset, dateText } from '../../sim/common/civilTime.ts';

const DAY_MS = 86_400_000;
/** Changes at night, at midnight either way, of half an hour, of two hours, for a month, of a whole day, and none. */
const ZONES = [
  'UTC',
  'Europe/Berlin',
  'America/St_Johns',
  'America/Havana',
  'America/Santiago',
  'America/Asuncion',
  'America/Nuuk',
  'Africa/Cairo',
  'Africa/Casablanca',
  'Antarctica/Troll',
  'Asia/Beirut',
  'Asia/Kathmandu',
  'Asia/Tehran',
  'Atlantic/Azores',
  'Australia/Lord_Howe',
  'Pacific/Apia',
  'Pacific/Chatham',
];
const TIMES = ['00:00', '00:30', '01:15', '02:30', '03:00', '12:00', '18:30', '23:45'];

/** Every eighth day of some years, and all near which the clocks of a zone change. */
function daysOf(zone: string, from: number, to: number): number[] {
  const length = (Date.UTC(to, 0, 1) - Date.UTC(from, 0, 1)) / DAY_MS;
  const at = (ms: number) => IANAZone.create(zone).offset(ms);
  return Array.from({ length }, (_, k) => Date.UTC(from, 0, 1) + k * DAY_MS).filter(
    (ms, k) => k % 8 === 0 || at(ms - DAY_MS) !== at(ms + 2 * DAY_MS),
  );
}

test.each(ZONES)('civilOffset is that of luxon at the changes of three years, in %s', (zone) => {
  const offset = civilOffset(zone);
  const wrong: string[] = [];
  for (const day_ms of daysOf(zone, 2010, 2013))
    for (let ms = day_ms; ms < day_ms + DAY_MS; ms += 3_600_000)
      for (const near of [ms - 1, ms, ms + 1_800_000])
        if (offset(near) !== IANAZone.create(zone).offset(near)) wrong.push(new Date(near).toISOString());
  expect(wrong).toEqual([]);
});

/**
 * The first instant that luxon knows for a time of the clock. It is asked from the day before: by itself it begins at
 * today's offset, and from there takes one of two, or none, differently in summer and in winter.
 */
function firstOf(date: string, time: string, zone: string): number {
  const [year, month, day] = date.split('-').map(Number) as [number, number, number];
  const [hour, minute] = time.split(':').map(Number) as [number, number];
  const before = DateTime.fromMillis(Date.parse(date) - DAY_MS, { zone });
  const found = before.set({ year, month, day, hour, minute, second: 0, millisecond: 0 });
  return Math.min(...found.getPossibleOffsets().map((one) => one.toMillis()));
}

test.each(ZONES)('civilInstant is what luxon has, through two years in %s', (zone) => {
  const instant = civilInstant(zone);
  const wrong: string[] = [];
  for (const year of [2011, 2025])
    for (const day_ms of daysOf(zone, year, year + 1)) {
      const date = dateText(day_ms);
      for (const time of TIMES)
        if (instant(date, time) !== firstOf(date, time, zone)) wrong.push(`${date} ${time}`);
      expect(instant(date)).toBe(instant(date, '00:00'));
    }
  expect(wrong).toEqual([]);
});

test('every zone that the platform knows is read as luxon reads it', () => {
  const wrong = Intl.supportedValuesOf('timeZone').flatMap((zone) => {
    const offset = civilOffset(zone);
    const { length } = Array.from({ length: 20 }, (_, k) => Date.UTC(1900, 0, 1) + k * 2417 * DAY_MS).filter(
      (ms) => offset(ms) !== IANAZone.create(zone).offset(ms),
    );
    return length === 0 ? [] : [zone];
  });
  expect(wrong).toEqual([]);
});

test('a zone that is not known is an error, what does not apply has no offset', () => {
  expect(() => civilInstant('Europe/Nowhere')).toThrow('Europe/Nowhere');
  expect(civilOffset('Europe/Berlin')(Number.NaN)).toBeNaN();
});
