import { DateTime } from 'luxon';
import { expect, test } from 'vitest';
import { civilMidnight, civilOffset, dateText } from '../../sim/common/civilTime.ts';

const DAY_MS = 86_400_000;
/** Changes at night, at midnight, of half an hour, of a whole day, and none. */
const ZONES = [
  'UTC',
  'Europe/Berlin',
  'America/St_Johns',
  'America/Havana',
  'Africa/Cairo',
  'Australia/Lord_Howe',
  'Asia/Kathmandu',
  'Pacific/Apia',
];

test.each(ZONES)('civilMidnight is the start of the day as luxon has it, in %s', (zone) => {
  const midnight = civilMidnight(zone);
  for (const year of [2011, 2025]) {
    for (let day = 0; day < 366; day++) {
      const date = dateText(Date.UTC(year, 0, 1) + day * DAY_MS);
      expect(midnight(date), date).toBe(DateTime.fromISO(date, { zone }).startOf('day').toMillis());
    }
  }
});

test.each(ZONES)('civilOffset is that of luxon all through a year, in %s', (zone) => {
  const offset = civilOffset(zone);
  const wrong: number[] = [];
  for (let ms = Date.UTC(2011, 0, 1); ms < Date.UTC(2012, 0, 1); ms += 6_300_000) {
    if (offset(ms) !== DateTime.fromMillis(ms, { zone }).offset) wrong.push(ms);
  }
  expect(wrong).toEqual([]);
});

test('a zone that is not known is an error, what does not apply has no offset', () => {
  expect(() => civilMidnight('Europe/Nowhere')).toThrow('Europe/Nowhere');
  expect(civilOffset('Europe/Berlin')(Number.NaN)).toBeNaN();
});
