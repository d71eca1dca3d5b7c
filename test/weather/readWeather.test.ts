import { expect, test } from 'vitest';
import { sunColumns } from '../../sim/sun/sunColumns.ts';
import { readWeather } from '../../sim/weather/readWeather.ts';
import { type WeatherValue, weatherSchema } from '../../sim/weather/schema.ts';
import { WEATHER_MARKS } from '../../sim/weather/WeatherRecord.ts';
import { csvOf, fileOf, problemsOf, rowsFrom } from '../tables/hourlyText.ts';

const SITE = { latitude_deg: 54, longitude_deg: 10 };
const JUNE = Date.UTC(2021, 5, 10);
const HOURS = 24 * 20;
const SECTION: WeatherValue = weatherSchema.parse({
  file: 'made-up.csv',
  stamp: { column: 'time', zone: 'UTC', marks: 'start' },
  columns: { ghi: { column: 'ghi', unit: 'W/m2' }, air_temperature: { column: 'air', unit: 'degC' } },
});

/** Three quarters of the light outside the air, as a made-up clear sky. */
function clearSky(start_ms: number, hours: number, site = SITE): number[] {
  const sun = sunColumns(start_ms, hours, site);
  return Array.from({ length: hours }, (_, i) =>
    Math.round(0.75 * sun.extraterrestrial_W_m2[i]! * sun.upCosZenith[i]! * sun.upShare[i]!),
  );
}

const sky = clearSky(JUNE, HOURS);
const fileWith = (change: Record<number, number | string>, start_ms = JUNE) =>
  csvOf(rowsFrom(start_ms, HOURS, (i) => change[i] ?? sky[i]!));

test('readWeather gives a whole record in canonical units, marked measured', () => {
  const record = readWeather(fileWith({}), SECTION, SITE);
  expect(record).toMatchObject({ start_ms: JUNE, step_s: 3600, count: HOURS });
  expect([...record.ghi_W_m2]).toEqual(sky);
  expect(new Set(record.air_degC)).toEqual(new Set([4.5]));
  expect(new Set(record.mark)).toEqual(new Set([WEATHER_MARKS.indexOf('measured')]));
  expect(record.dni_W_m2).toBeUndefined();
  expect(record.origin).toMatchObject({ file: 'made-up.csv', filledHours: 0 });
  expect(record.origin.options.stamp).toBe(
    'column "time", year-month-day, zone UTC, marks the start of its hour',
  );
  expect(record.origin.options.ghi).toBe('column "ghi" in W/m2');
});

test('readWeather reads snow, rain and wind', () => {
  const rows = ['2021-01-01 00:00,0,1,12,0.5,36', '2021-01-01 01:00,0,1,13,0,18'];
  const record = readWeather(
    fileOf(`time,ghi,air,snow,rain,wind\n${rows.join('\n')}\n`),
    {
      ...SECTION,
      columns: {
        ...SECTION.columns,
        snow_depth: { column: 'snow', unit: 'cm' },
        rain: { column: 'rain', unit: 'mm' },
        wind: { column: 'wind', unit: 'km/h' },
      },
    },
    SITE,
  );
  expect([...record.snowDepth_m!]).toEqual([0.12, 0.13]);
  expect([...record.rain_mm!]).toEqual([0.5, 0]);
  expect([...record.wind_m_s!]).toEqual([10, 5]);
});

test('readWeather lets a constant temperature stand in and says so, leaving the irradiance mark alone', () => {
  const section = {
    ...SECTION,
    columns: { ghi: { column: 'ghi', unit: 'W/m2' }, air_temperature: { constant_degC: 10 } },
  } as const satisfies WeatherValue;
  const record = readWeather(fileWith({}), section, SITE);
  expect(new Set(record.air_degC)).toEqual(new Set([10]));
  expect(record.origin.options['air temperature']).toBe('stand-in: 10 degC in every hour');
  expect(record.mark[12]).toBe(WEATHER_MARKS.indexOf('measured'));
});

test('readWeather closes GHI from DNI and DHI, marked closed', () => {
  const rows = Array.from({ length: HOURS }, (_, i) => {
    const stamp = new Date(JUNE + i * 3_600_000).toISOString().slice(0, 16);
    return sky[i]! > 200 ? `${stamp},500,100` : `${stamp},0,0`;
  });
  const record = readWeather(
    fileOf(`time,dni,dhi\n${rows.join('\n')}\n`),
    {
      ...SECTION,
      columns: {
        dni: { column: 'dni', unit: 'W/m2' },
        dhi: { column: 'dhi', unit: 'W/m2' },
        air_temperature: { constant_degC: 10 },
      },
    },
    SITE,
  );
  const sun = sunColumns(JUNE, HOURS, SITE);
  const noon = sky.indexOf(Math.max(...sky));
  expect(record.ghi_W_m2[noon]).toBeCloseTo(100 + 500 * sun.upCosZenith[noon]!, 9);
  expect(record.mark[noon]).toBe(WEATHER_MARKS.indexOf('closed'));
});

test('readWeather names every part of the mapping that is not stated', () => {
  const problems = problemsOf(() => readWeather(fileWith({}), weatherSchema.parse({ file: 'x' }), SITE));
  expect(problems.map(({ code, field }) => [code, field])).toEqual([
    ['SCENARIO_MISSING_KEY', 'weather.stamp'],
    ['SCENARIO_MISSING_KEY', 'weather.columns.ghi'],
    ['SCENARIO_MISSING_KEY', 'weather.columns.air_temperature'],
  ]);
});

test('readWeather refuses a temperature stated twice, and one without a unit', () => {
  const both = { column: 'air', unit: 'degC', constant_degC: 3 } as const;
  const twice = { ...SECTION, columns: { ...SECTION.columns, air_temperature: both } };
  expect(problemsOf(() => readWeather(fileWith({}), twice, SITE))[0]!.code).toBe('SCENARIO_CONFLICT');
  const bare = { ...SECTION, columns: { ...SECTION.columns, air_temperature: { column: 'air' } } };
  expect(problemsOf(() => readWeather(fileWith({}), bare, SITE))[0]!.field).toBe(
    'weather.columns.air_temperature.unit',
  );
});

test('readWeather sets a sensor offset to 0 and counts it', () => {
  const record = readWeather(fileWith({ 0: -5, 23: 3, 12: sky[12]! }), SECTION, SITE);
  expect([record.ghi_W_m2[0], record.ghi_W_m2[23]]).toEqual([0, 0]);
  expect(record.origin.options['ghi offsets']).toBe('2 hours below zero, or above it at night, set to 0');
});

test('readWeather refuses irradiance further below zero than an offset explains', () => {
  const [problem] = problemsOf(() => readWeather(fileWith({ 30: -16 }), SECTION, SITE));
  expect(problem).toMatchObject({ code: 'WEATHER_VALUE_OUT_OF_RANGE', line: 32, field: 'ghi' });
  expect(problem!.got).toBe('-16 W/m2 in the hour from 2021-06-11 06:00 UTC');
  expect(problem!.expected).toContain('-15 to ');
  expect(problem!.fix).toContain('add "-16" to weather.missing');
});

test('readWeather refuses irradiance above the physically possible', () => {
  const [problem] = problemsOf(() => readWeather(fileWith({ 36: 1900 }), SECTION, SITE));
  expect(problem!.code).toBe('WEATHER_VALUE_OUT_OF_RANGE');
  expect(problem!.expected).toContain('with the sun at 56.4 degrees');
  expect(problem!.fix).toBe('correct the value.');
});

test('readWeather offers the unit that would fit when many values are too high', () => {
  const file = csvOf(rowsFrom(JUNE, HOURS, (i) => sky[i]! * 3.6));
  const problems = problemsOf(() => readWeather(file, SECTION, SITE));
  expect(problems).toHaveLength(5);
  expect(problems[4]!.more).toBeGreaterThan(0);
  expect(problems[0]!.fix).toBe(
    'are latitude and longitude right, with their signs? If so, is the column in kJ/m2? Then set weather.columns.ghi.unit: kJ/m2.',
  );
});

test('readWeather refuses temperatures that cannot be, and offers the unit that fits', () => {
  const rows = rowsFrom(JUNE, HOURS, (i) => sky[i]!).map((row) => row.replace(/,4\.5$/, ',285'));
  const problems = problemsOf(() => readWeather(csvOf(rows), SECTION, SITE));
  expect(problems[0]).toMatchObject({
    code: 'WEATHER_VALUE_OUT_OF_RANGE',
    field: 'air',
    expected: '-90 to 60 degC',
  });
  expect(problems[0]!.fix).toMatch(/in (0\.1 degC|K)\?/);
});

test('readWeather refuses irradiance at midnight', () => {
  const december = Date.UTC(2021, 11, 1);
  const rows = rowsFrom(december, 48, (i) => (i === 24 ? 40 : 0));
  const problems = problemsOf(() => readWeather(csvOf(rows), SECTION, SITE));
  expect(problems).toHaveLength(1);
  expect(problems[0]).toMatchObject({ code: 'WEATHER_SUN_DOWN', line: 26, field: 'ghi' });
  expect(problems[0]!.got).toBe('40 W/m2 in the hour from 2021-12-02 00:00 UTC, with the sun at -54 degrees');
});

test('readWeather says by how many hours the light is off and which zone would fit', () => {
  // The file's clock is six hours ahead of what the mapping says.
  const problems = problemsOf(() => readWeather(fileWith({}, JUNE + 6 * 3_600_000), SECTION, SITE));
  const night = problems.find(({ code }) => code === 'WEATHER_SUN_DOWN');
  expect(night!.fix).toContain('about 6 hours after solar noon');
  expect(night!.fix).toContain('weather.stamp.zone (+06:00 would fit)');
});

test('readWeather says when a night holds one value for hours, as a filled gap does', () => {
  const december = Date.UTC(2021, 11, 1);
  const rows = rowsFrom(december, 48, () => 40);
  expect(problemsOf(() => readWeather(csvOf(rows), SECTION, SITE))[0]!.fix).toContain('48 rows running');
});

test('readWeather works in polar night and midnight sun', () => {
  const site = { latitude_deg: 70, longitude_deg: 20 };
  for (const start_ms of [Date.UTC(2021, 11, 10), JUNE]) {
    const polar = clearSky(start_ms, 240, site);
    const record = readWeather(csvOf(rowsFrom(start_ms, 240, (i) => polar[i]!)), SECTION, site);
    expect([...record.ghi_W_m2]).toEqual(polar);
  }
});
