import { expect, test } from 'vitest';
import { bytesSource } from '../../sim/tables/TableSource.ts';
import { writeNormalForm } from '../../sim/weather/normalForm.ts';
import { ownRecord } from '../../sim/weather/ownRecord.ts';
import type { WeatherRecord } from '../../sim/weather/WeatherRecord.ts';

const record: WeatherRecord = {
  start_ms: 0,
  step_s: 3600,
  count: 3,
  ghi_W_m2: Float64Array.of(0, 1.5, 2),
  air_degC: Float64Array.of(-1, 0, 1),
  mark: Uint8Array.of(0, 3, 0),
  origin: { file: 'made-up.csv', sha256: '', options: {}, filledHours: 1 },
};
const PLACE = { latitude_deg: -33.5, longitude_deg: 151, elevation_m: 12.5 };
const source = (text: string, name = 'made-up.csv') =>
  bytesSource({ name, bytes: new TextEncoder().encode(text) });

test('ownRecord gives the record and the place of a file of the normal form', () => {
  const own = ownRecord([source(writeNormalForm(record, PLACE))])!;
  expect(own.place).toEqual(PLACE);
  expect(own.record).toMatchObject({ count: 3, mark: record.mark, ghi_W_m2: record.ghi_W_m2 });
  expect(own.record.origin.filledHours).toBe(1);
});

test('ownRecord gives no place where the file states none, or one that is none', () => {
  expect(ownRecord([source(writeNormalForm(record))])).not.toHaveProperty('place');
  const nowhere = writeNormalForm(record, PLACE).replaceAll('-33.5', '-133.5');
  expect(ownRecord([source(nowhere)])).not.toHaveProperty('place');
});

test('ownRecord gives nothing for other files, or for several', () => {
  expect(ownRecord([source('start_utc,ghi_W_m2\n1970-01-01T00:00:00Z,0\n')])).toBeUndefined();
  const text = writeNormalForm(record, PLACE);
  expect(ownRecord([source(text), source(text, 'other.csv')])).toBeUndefined();
});
