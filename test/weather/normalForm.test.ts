import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { bytesSource } from '../../sim/tables/TableSource.ts';
import { ownRecord, writeNormalForm } from '../../sim/weather/normalForm.ts';
import { WEATHER_MARKS, type WeatherRecord } from '../../sim/weather/WeatherRecord.ts';
import { fileOf, problemsOf } from '../tables/hourlyText.ts';

const wide = (n: number, min: number, max: number) =>
  fc
    .float64Array({ minLength: n, maxLength: n, min, max, noNaN: true })
    .map((values) => values.map((v) => v + 0));

/** Records of some hours with any of the columns. */
const records = fc.integer({ min: 2, max: 30 }).chain((count) =>
  fc
    .record(
      {
        start_ms: fc.integer({ min: 0, max: 400_000 }).map((hour) => hour * 3_600_000),
        ghi_W_m2: wide(count, 0, 1400),
        dni_W_m2: wide(count, 0, 1400),
        dhi_W_m2: wide(count, 0, 1400),
        air_degC: wide(count, -60, 60),
        snowDepth_m: wide(count, 0, 15),
        rain_mm: fc
          .array(
            fc.integer({ min: 0, max: 3000 }).map((n) => n / 10),
            { minLength: count, maxLength: count },
          )
          .map((list) => Float64Array.from(list)),
        wind_m_s: wide(count, 0, 100),
        mark: fc
          .array(fc.integer({ min: 0, max: 4 }), { minLength: count, maxLength: count })
          .map((list) => Uint8Array.from(list)),
      },
      { requiredKeys: ['start_ms', 'ghi_W_m2', 'air_degC', 'mark'] },
    )
    .map(
      (columns): WeatherRecord => ({
        ...columns,
        step_s: 3600,
        count,
        origin: { file: 'made-up.csv', sha256: '', options: {}, filledHours: 0 },
      }),
    ),
);

const readBack = (text: string) => ownRecord([bytesSource(fileOf(text))])?.record;

describe('the normal form', () => {
  it('gives every number and every mark back as it was', () => {
    fc.assert(
      fc.property(records, (record) => {
        const { origin: _, ...back } = readBack(writeNormalForm(record))!;
        const { origin: __, ...given } = record;
        expect(back).toEqual(given);
      }),
      { seed: 3, numRuns: 100 },
    );
  });

  it('reads as text with units in its headings', () => {
    const record: WeatherRecord = {
      start_ms: Date.UTC(2021, 11, 31, 22),
      step_s: 3600,
      count: 2,
      ghi_W_m2: Float64Array.of(0, 12.5),
      air_degC: Float64Array.of(-3, Number.NaN),
      mark: Uint8Array.of(0, 3),
      origin: { file: '', sha256: '', options: {}, filledHours: 1 },
    };
    expect(writeNormalForm(record)).toBe(
      'start_utc,ghi_W_m2,air_degC,weather_mark\n2021-12-31T22:00:00Z,0,-3,measured\n2021-12-31T23:00:00Z,12.5,,filled\n',
    );
    const back = readBack(writeNormalForm(record))!;
    expect(back.air_degC[1]).toBeNaN();
    expect(back.origin.filledHours).toBe(1);
    const standIn = {
      ...record,
      origin: { ...record.origin, options: { 'air temperature': 'stand-in: 4 degC in every hour' } },
    };
    expect(writeNormalForm(standIn)).toContain('stand_in_air_degC');
    expect(readBack(writeNormalForm(standIn))!.origin.options['air temperature']).toMatch(/^stand-in/);
  });

  it('is told from other files and refuses a word that is no mark', () => {
    expect(readBack('time,ghi\n2021-06-01 10:00,3\n')).toBeUndefined();
    const bad =
      'start_utc,ghi_W_m2,air_degC,weather_mark\n2021-06-01T10:00:00Z,1,2,guessed\n2021-06-01T11:00:00Z,1,2,filled\n';
    expect(problemsOf(() => readBack(bad))).toEqual([
      {
        code: 'WEATHER_VALUE_NOT_NUMBER',
        file: 'made-up.csv',
        line: 2,
        field: 'weather_mark',
        got: '"guessed"',
        expected: `one of ${WEATHER_MARKS.join(', ')}`,
        fix: 'correct the word.',
      },
    ]);
    const gap = `${bad.replace('guessed', 'closed')}2021-06-01T13:00:00Z,1,2,measured\n`;
    expect(problemsOf(() => readBack(gap)).map(({ code }) => code)).toEqual(['WEATHER_GAP']);
  });
});

const hours: WeatherRecord = {
  start_ms: 0,
  step_s: 3600,
  count: 3,
  ghi_W_m2: Float64Array.of(0, 1.5, 2),
  air_degC: Float64Array.of(-1, 0, 1),
  mark: Uint8Array.of(0, 3, 0),
  origin: { file: 'made-up.csv', sha256: '', options: {}, filledHours: 1 },
};
const PLACE = { latitude_deg: -33.5, longitude_deg: 151, elevation_m: 12.5 };
const source = (text: string) => bytesSource(fileOf(text));

test('ownRecord gives the record and the place of a file of the normal form', () => {
  const own = ownRecord([source(writeNormalForm(hours, PLACE))])!;
  expect(own.place).toEqual(PLACE);
  expect(own.record).toMatchObject({ count: 3, mark: hours.mark, ghi_W_m2: hours.ghi_W_m2 });
  expect(own.record.origin.filledHours).toBe(1);
});

test('ownRecord gives no place where the file states none, or one that is none', () => {
  expect(ownRecord([source(writeNormalForm(hours))])).not.toHaveProperty('place');
  const nowhere = writeNormalForm(hours, PLACE).replaceAll('-33.5', '-133.5');
  expect(ownRecord([source(nowhere)])).not.toHaveProperty('place');
});

test('ownRecord gives nothing for other files, or for several', () => {
  expect(ownRecord([source('start_utc,ghi_W_m2\n1970-01-01T00:00:00Z,0\n')])).toBeUndefined();
  const text = writeNormalForm(hours, PLACE);
  expect(ownRecord([source(text), source(text)])).toBeUndefined();
});
