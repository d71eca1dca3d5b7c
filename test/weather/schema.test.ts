import { expect, test } from 'vitest';
import { z } from 'zod';
import { weatherSchema } from '../../sim/weather/schema.ts';

test('weatherSchema takes a file alone, an empty cell being the missing code', () => {
  expect(weatherSchema.parse({ file: 'a.csv' })).toEqual({
    file: 'a.csv',
    accept_filled: false,
    missing: [''],
  });
});

test.each([
  [{}, 'file'],
  [{ file: 'a', colums: {} }, ''],
  [{ file: 'a', stamp: { column: 't', zone: 'Europe/Berlin', marks: 'end' } }, 'stamp.zone'],
  [{ file: 'a', stamp: { column: 't', zone: 'UTC', marks: 'last' } }, 'stamp.marks'],
  [{ file: 'a', columns: { ghi: { column: 'g', unit: 'mm' } } }, 'columns.ghi.unit'],
  [
    { file: 'a', columns: { air_temperature: { constant_degC: 99 } } },
    'columns.air_temperature.constant_degC',
  ],
])('weatherSchema refuses %j', (section, path) => {
  const result = weatherSchema.safeParse(section);
  expect(result.success).toBe(false);
  expect(result.error!.issues.map((issue) => issue.path.join('.'))).toContain(path);
});

test.each(['UTC', 'Z', '+01:00', 'UTC+1', '-03:30'])('weatherSchema takes the zone %s', (zone) => {
  expect(weatherSchema.safeParse({ file: 'a', stamp: { column: 't', zone, marks: 'end' } }).success).toBe(
    true,
  );
});

test('weatherSchema can be written as JSON Schema', () => {
  expect(z.toJSONSchema(weatherSchema)).toMatchObject({ type: 'object', additionalProperties: false });
});
