import { DateTime } from 'luxon';
import { expect, test } from 'vitest';
import { civilStamp } from '../../sim/output/civilStamp.ts';

const ZONES = [
  'UTC',
  'Europe/Berlin',
  'America/St_Johns',
  'Australia/Lord_Howe',
  'Asia/Kathmandu',
  'Pacific/Apia',
];

test('civil time agrees with luxon at every quarter of an hour around the changes of the clocks', () => {
  for (const zone of ZONES) {
    const civil = civilStamp(zone);
    for (const day of ['2011-12-29', '2025-03-30', '2025-04-05', '2025-10-04', '2025-10-26', '2025-11-02']) {
      for (let quarter = 0; quarter < 4 * 48; quarter++) {
        const ms = Date.parse(`${day}T00:00:00Z`) + quarter * 900_000;
        const expected = DateTime.fromMillis(ms, { zone }).toFormat("yyyy-MM-dd'T'HH:mm:ssZZ");
        expect(civil(ms)).toBe(expected);
      }
    }
  }
});

test('an instant that does not apply is empty, an unknown zone an error', () => {
  expect(civilStamp('Europe/Berlin')(Number.NaN)).toBe('');
  expect(() => civilStamp('Europe/Nowhere')).toThrow('Europe/Nowhere');
});
