import { expect, test } from 'vitest';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { sunColumns } from '../../sim/sun/sunColumns.ts';
import { readHourlyTable } from '../../sim/tables/hourlyTable.ts';
import { bytesSource, type NamedBytes, readTextFile } from '../../sim/tables/TableSource.ts';
import { loadWeather } from '../../sim/trial/loadWeather.ts';
import { importWeather } from '../../sim/weather/importWeather.ts';
import { type WeatherValue, weatherSchema } from '../../sim/weather/schema.ts';
import { lacksOfMapping, statedWeather } from '../../sim/weather/statedWeather.ts';
import { WEATHER_MARKS, type WeatherRecord } from '../../sim/weather/WeatherRecord.ts';
import { csvOf, fileOf, rowsFrom } from '../tables/hourlyText.ts';
import { problemsOf } from './recognise/readText.ts';

const SITE = { latitude_deg: 54, longitude_deg: 10 };
const JUNE = Date.UTC(2021, 5, 10);
const HOURS = 24 * 20;
const SECTION: WeatherValue = weatherSchema.parse({
  file: 'made-up.csv',
  stamp: { column: 'time', zone: 'UTC', marks: 'start' },
  columns: { ghi: { column: 'ghi', unit: 'W/m2' }, air_temperature: { column: 'air', unit: 'degC' } },
});

/** The record of a file by the mapping of a section. */
async function read(file: NamedBytes, section = SECTION, place = SITE): Promise<WeatherRecord> {
  const { record } = await importWeather([bytesSource(file)], { place, ...statedWeather(section) });
  return record!;
}

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

test('a stated file gives a whole record in canonical units, marked measured', async () => {
  const record = await read(fileWith({}));
  expect(record).toMatchObject({ start_ms: JUNE, step_s: 3600, count: HOURS });
  expect([...record.ghi_W_m2]).toEqual(sky);
  expect(new Set(record.air_degC)).toEqual(new Set([4.5]));
  expect(new Set(record.mark)).toEqual(new Set([WEATHER_MARKS.indexOf('measured')]));
  expect(record.dni_W_m2).toBeUndefined();
  expect(record.origin).toMatchObject({ file: 'made-up.csv', filledHours: 0 });
  expect(record.origin.options).toMatchObject({
    stamp: '"time" (year-month-day); steps of 3600 s',
    zone: 'stated by the user',
    marks: 'stated by the user',
    ghi: 'column "ghi" in W/m2: stated by the user',
    'missing codes': 'none',
  });
  expect(record.origin.options.clock).toMatch(
    /^as the user states, UTC, stamps at the start of the interval; by the sun/,
  );
});

test('a stated file has its snow, rain and wind', async () => {
  const rows = ['2021-01-01 00:00,0,1,12,0.5,36', '2021-01-01 01:00,0,1,13,0,18'];
  const record = await read(fileOf(`time,ghi,air,snow,rain,wind\n${rows.join('\n')}\n`), {
    ...SECTION,
    columns: {
      ...SECTION.columns,
      snow_depth: { column: 'snow', unit: 'cm' },
      rain: { column: 'rain', unit: 'mm' },
      wind: { column: 'wind', unit: 'km/h' },
    },
  });
  expect([...record.snowDepth_m!]).toEqual([0.12, 0.13]);
  expect([...record.rain_mm!]).toEqual([0.5, 0]);
  expect([...record.wind_m_s!]).toEqual([10, 5]);
});

test('a stated file lets a constant temperature stand in and says so, leaving the irradiance mark alone', async () => {
  const section = {
    ...SECTION,
    columns: { ghi: { column: 'ghi', unit: 'W/m2' }, air_temperature: { constant_degC: 10 } },
  } as const satisfies WeatherValue;
  const record = await read(fileWith({}), section);
  expect(new Set(record.air_degC)).toEqual(new Set([10]));
  expect(record.origin.options['air temperature']).toBe('stand-in: 10 degC in every hour');
  expect(record.mark[12]).toBe(WEATHER_MARKS.indexOf('measured'));
});

test('a stated file has its GHI closed from DNI and DHI, marked closed', async () => {
  const rows = Array.from({ length: HOURS }, (_, i) => {
    const stamp = new Date(JUNE + i * 3_600_000).toISOString().slice(0, 16);
    return sky[i]! > 200 ? `${stamp},500,100` : `${stamp},0,0`;
  });
  const record = await read(fileOf(`time,dni,dhi\n${rows.join('\n')}\n`), {
    ...SECTION,
    columns: {
      dni: { column: 'dni', unit: 'W/m2' },
      dhi: { column: 'dhi', unit: 'W/m2' },
      air_temperature: { constant_degC: 10 },
    },
  });
  const sun = sunColumns(JUNE, HOURS, SITE);
  const noon = sky.indexOf(Math.max(...sky));
  expect(record.ghi_W_m2[noon]).toBeCloseTo(100 + 500 * sun.upCosZenith[noon]!, 9);
  expect(record.mark[noon]).toBe(WEATHER_MARKS.indexOf('closed'));
});

test('a stated section names every part of the mapping that is not stated', () => {
  const { stamp } = SECTION;
  const section = weatherSchema.parse({ file: 'x', stamp, columns: { wind: { column: 'w', unit: 'm/s' } } });
  expect(lacksOfMapping(section).map(({ code, field }) => [code, field])).toEqual([
    ['SCENARIO_MISSING_KEY', 'weather.columns.ghi'],
    ['SCENARIO_MISSING_KEY', 'weather.columns.air_temperature'],
  ]);
  // Without a stamp, or without columns, the file is recognised.
  expect(lacksOfMapping(weatherSchema.parse({ file: 'x', stamp }))).toEqual([]);
});

test('a stated section may not state the temperature twice, nor without a unit', () => {
  const both = { column: 'air', unit: 'degC', constant_degC: 3 } as const;
  const twice = { ...SECTION, columns: { ...SECTION.columns, air_temperature: both } };
  expect(lacksOfMapping(twice)[0]!.code).toBe('SCENARIO_CONFLICT');
  const bare = { ...SECTION, columns: { ...SECTION.columns, air_temperature: { column: 'air' } } };
  expect(lacksOfMapping(bare)[0]!.field).toBe('weather.columns.air_temperature.unit');
});

test('a stated file has offsets of its sensor set to 0, and counted', async () => {
  const record = await read(fileWith({ 0: -5, 23: 3, 12: sky[12]! }));
  expect([record.ghi_W_m2[0], record.ghi_W_m2[23]]).toEqual([0, 0]);
  expect(record.origin.options['ghi offsets']).toBe('2 hours below zero, or above it at night, set to 0');
});

test('a stated file is refused for irradiance further below zero than an offset explains', async () => {
  const [problem] = await problemsOf(read(fileWith({ 30: -16 })));
  expect(problem).toMatchObject({ code: 'WEATHER_VALUE_OUT_OF_RANGE', line: 32, field: 'ghi' });
  expect(problem!.got).toMatch(
    /^-16 W\/m2 in the hour from 2021-06-11 06:00 UTC with the sun at 29 degrees, where -15 to /,
  );
  expect(problem!.fix).toContain('add "-16" to weather.missing');
});

test('a stated file is refused for irradiance above the physically possible', async () => {
  const [problem] = await problemsOf(read(fileWith({ 36: 1900 })));
  expect(problem!.code).toBe('WEATHER_VALUE_OUT_OF_RANGE');
  expect(problem!.got).toContain('with the sun at 56 degrees');
  expect(problem!.fix).toBe('correct the value.');
});

test('a stated file is refused with the unit that would fit when many values are too high', async () => {
  const file = csvOf(rowsFrom(JUNE, HOURS, (i) => sky[i]! * 3.6));
  const problems = await problemsOf(read(file));
  expect(problems).toMatchObject([{ line: 5, field: 'ghi' }]);
  expect(problems[0]!.got).toContain('percent) cannot be');
  expect(problems[0]!.fix).toBe(
    'are latitude and longitude right, with their signs? If so, is the column in kJ/m2? Then set weather.columns.ghi.unit: kJ/m2.',
  );
});

test.each([
  [4, 'correct the value.'],
  [5, expect.stringContaining('is the column in kJ/m2?')],
])('of %i hours too high among 480 the hint is: %s', async (hours, fix) => {
  const first = 24 * 10 + 10;
  const rows = rowsFrom(JUNE, HOURS, (i) => sky[i]! * (i >= first && i < first + hours ? 3.6 : 1));
  expect(await problemsOf(read(csvOf(rows)))).toMatchObject([{ code: 'WEATHER_VALUE_OUT_OF_RANGE', fix }]);
});

test('a stated file is refused for temperatures that cannot be, with the unit that fits', async () => {
  const rows = rowsFrom(JUNE, HOURS, (i) => sky[i]!).map((row) => row.replace(/,4\.5$/, ',285'));
  const problems = await problemsOf(read(csvOf(rows)));
  expect(problems[0]).toMatchObject({
    code: 'WEATHER_VALUE_OUT_OF_RANGE',
    field: 'air',
    line: 2,
  });
  expect(problems[0]!.got).toContain('285 degC, where -90 to 60 degC can be');
  expect(problems[0]!.fix).toContain('in K?');
});

test('a stated file is refused for irradiance at midnight', async () => {
  const december = Date.UTC(2021, 11, 1);
  const rows = rowsFrom(december, 48, (i) => (i === 24 ? 40 : 0));
  const problems = await problemsOf(read(csvOf(rows)));
  expect(problems).toHaveLength(1);
  expect(problems[0]).toMatchObject({ code: 'WEATHER_SUN_DOWN', line: 26, field: 'ghi' });
  expect(problems[0]!.got).toContain(
    '40 W/m2 in the hour from 2021-12-02 00:00 UTC with the sun at -54 degrees',
  );
});

test('a stated file whose light is hours off is refused with how many and which zone would fit', async () => {
  // The file's clock is six hours ahead of what the mapping says.
  const problems = await problemsOf(read(fileWith({}, JUNE + 6 * 3_600_000)));
  const night = problems.find(({ code }) => code === 'WEATHER_SUN_DOWN');
  expect(night!.fix).toContain('by the sun that is a clock 363 minutes fast: check weather.stamp.zone');
  expect(night!.fix).toContain('--zone +06:00');
});

test.each([
  // By the sun these clocks are 28 and 30 minutes fast: the middle of the light is not quite that of the sun.
  [32, 'correct the value.'],
  [34, expect.stringContaining('by the sun that is a clock 30 minutes fast: check weather.stamp.zone')],
])('beside light in one night a clock %i minutes off has the hint: %s', async (off_min, fix) => {
  const beside = clearSky(JUNE, HOURS, { ...SITE, longitude_deg: SITE.longitude_deg - off_min / 4 });
  const rows = rowsFrom(JUNE, HOURS, (i) => (i === 263 ? 300 : beside[i]!));
  const night = (await problemsOf(read(csvOf(rows)))).find(({ code }) => code === 'WEATHER_SUN_DOWN');
  expect(night!.fix).toEqual(fix);
});

test('a stated file is refused where a night holds one value for hours, as a filled gap does', async () => {
  const december = Date.UTC(2021, 11, 1);
  const rows = rowsFrom(december, 48, () => 40);
  expect((await problemsOf(read(csvOf(rows))))[0]!.fix).toContain('40 W/m2 in 48 hours running');
});

test('a stated file may lie in polar night and midnight sun', async () => {
  const site = { latitude_deg: 70, longitude_deg: 20 };
  for (const start_ms of [Date.UTC(2021, 11, 10), JUNE]) {
    const polar = clearSky(start_ms, 240, site);
    const record = await read(csvOf(rowsFrom(start_ms, 240, (i) => polar[i]!)), SECTION, site);
    expect([...record.ghi_W_m2]).toEqual(polar);
  }
});

/** Element by element; much faster than toEqual. */
const same = (a: ArrayLike<number>, b: ArrayLike<number>): boolean =>
  a.length === b.length && Array.from(a).every((value, i) => value === b[i]);

test('a stated file comes with the numbers that stand in it, to the last digit, all measured: the demo', async () => {
  const scenario = loadScenario('scenarios/invented-garden.yaml');
  const { section, path } = scenario.weather!;
  const { stamp, columns, missing } = section;
  const { column, unit } = columns!.air_temperature!;
  const mapping = {
    stamp: stamp!,
    missing,
    columns: { ghi: columns!.ghi!, air: { column: column!, unit: unit! } },
  };
  const table = readHourlyTable(readTextFile(path), mapping);
  const record = (await loadWeather(scenario))!;
  expect([record.start_ms, record.count]).toEqual([table.start_ms, 8760]);
  expect(same(record.ghi_W_m2, table.columns.ghi!)).toBe(true);
  expect(same(record.air_degC, table.columns.air!)).toBe(true);
  expect(record.mark.every((mark) => mark === 0)).toBe(true);
  expect(record.origin).toMatchObject({ sha256: table.sha256, filledHours: 0 });
  const sun = sunColumns(record.start_ms, record.count, scenario.site);
  expect(same(record.sun!.upCosZenith, sun.upCosZenith)).toBe(true);
});

test.each([
  [
    'a gap in its rows',
    (rows: string[]) => rows.splice(40, 3),
    'WEATHER_GAP',
    42,
    'no rows from 2021-06-11 16:00 UTC to 2021-06-11 19:00 UTC (3 hours)',
  ],
  [
    'a missing value',
    (rows: string[]) => rows.splice(40, 1, '2021-06-11 16:00,,4.5'),
    'WEATHER_GAP',
    42,
    'no values from 2021-06-11 16:00 UTC to 2021-06-11 17:00 UTC (1 hour, lines 42 to 42)',
  ],
  [
    'a row twice',
    (rows: string[]) => rows.splice(40, 0, rows[40]!),
    'WEATHER_DUPLICATE',
    43,
    '"2021-06-11 16:00" again',
  ],
  [
    'a row too early',
    (rows: string[]) => rows.splice(40, 2, rows[41]!, rows[40]!),
    'WEATHER_DISORDER',
    43,
    '"2021-06-11 16:00" (2021-06-11 16:00 UTC) after 2021-06-11 17:00 UTC',
  ],
  [
    'a row off the hour',
    (rows: string[]) => rows.splice(40, 1, '2021-06-11 16:13,5,4.5'),
    'WEATHER_STAMP_UNREADABLE',
    42,
    'a row 13 minutes off the hours of the others',
  ],
  [
    'a code that is not stated',
    (rows: string[]) => rows.splice(40, 1, '2021-06-11 16:00,n/a,4.5'),
    'WEATHER_VALUE_NOT_NUMBER',
    42,
    '"n/a"',
  ],
  [
    'a number that nobody states as a code',
    (rows: string[]) => rows.splice(40, 1, '2021-06-11 16:00,-999,4.5'),
    'WEATHER_VALUE_OUT_OF_RANGE',
    42,
    expect.stringMatching(/^-999 W\/m2 in the hour from 2021-06-11 16:00 UTC with the sun at/),
  ],
] as const)(
  'a stated file with %s is refused by its line, not mended',
  async (_, change, code, line, got) => {
    const rows = rowsFrom(JUNE, HOURS, (i) => sky[i]!);
    change(rows);
    expect(await problemsOf(read(csvOf(rows)))).toMatchObject([{ code, file: 'made-up.csv', line, got }]);
  },
);

test('a stated file whose stated code stands in it lacks those hours', async () => {
  const section = { ...SECTION, missing: ['-999', 'n/a'] };
  const [problem] = await problemsOf(read(fileWith({ 40: '-999.0', 41: 'n/a' }), section));
  expect(problem).toMatchObject({ code: 'WEATHER_GAP', line: 42 });
  expect(problem!.got).toContain('(2 hours, lines 42 to 43)');
});

test('a stated file must come by the hour, with one column of each name', async () => {
  const tenths = Array.from(
    { length: 300 },
    (_, i) => `${new Date(JUNE + i * 600_000).toISOString().slice(0, 16)},0,4.5`,
  );
  expect((await problemsOf(read(csvOf(tenths))))[0]).toMatchObject({
    code: 'WEATHER_STAMP_UNREADABLE',
    line: 3,
    field: 'time',
    got: 'rows 10 minutes apart',
  });
  const text = (heading: string) => fileOf(`${heading}\n${rowsFrom(JUNE, 48, () => 0).join('\n')}\n`);
  expect((await problemsOf(read(text('time,ghi,air,ghi'))))[0]).toMatchObject({
    code: 'WEATHER_AMBIGUOUS',
    field: 'ghi',
  });
  expect((await problemsOf(read(text('time,ghj,air'))))[0]).toMatchObject({
    code: 'WEATHER_COLUMN_MISSING',
    field: 'ghi',
    fix: expect.stringContaining('did you mean "ghj"?'),
  });
  expect((await problemsOf(read(text('date,ghi,air'))))[0]).toMatchObject({
    code: 'WEATHER_COLUMN_MISSING',
    field: 'time',
  });
});

test('a stated file may lack a few hours at an end of its year, which are filled as in any other', async () => {
  const start = Date.UTC(2021, 0, 1);
  const year = clearSky(start, 8760);
  for (const [from, to, lost] of [
    [0, 8759, 8759],
    [1, 8760, 0],
  ] as const) {
    const rows = rowsFrom(start, 8760, (i) => year[i]!).slice(from, to);
    const record = await read(csvOf(rows));
    expect(record).toMatchObject({ start_ms: start, count: 8760, origin: { filledHours: 1 } });
    expect(record.mark[lost]).toBe(WEATHER_MARKS.indexOf('filled'));
    expect(same(record.ghi_W_m2, year)).toBe(true);
  }
});

test('a stated file keeps hours that an import would take as missing, and says so', async () => {
  const copy = rowsFrom(JUNE, HOURS, (i) => sky[i]! * (0.5 + 0.02 * Math.floor(i / 24)));
  copy.splice(240, 12, ...copy.slice(240, 252).map((row) => row.replace(/,.*,/, ',0,')));
  const record = await read(csvOf(copy));
  expect([...record.ghi_W_m2.subarray(240, 252)]).toEqual(new Array(12).fill(0));
  expect(new Set(record.mark)).toEqual(new Set([0]));
  expect(record.origin.options['kept as stated']).toContain('hours of zeros with the sun well up');
});

test('what is stated of the clock stands though the sun disagrees, and is noted beside it', async () => {
  const dim = csvOf(rowsFrom(JUNE, HOURS, (i) => sky[i]! / 2));
  const stamped = (marks: 'middle' | 'end') => ({ ...SECTION, stamp: { ...SECTION.stamp!, marks } });
  const late = await read(dim, stamped('end'));
  expect(late.start_ms).toBe(JUNE - 3_600_000);
  expect(
    same(
      late.ghi_W_m2,
      sky.map((value) => value / 2),
    ),
  ).toBe(true);
  expect(late.origin.options.clock).toMatch(
    /^as the user states, UTC, stamps at the end of the interval; by the sun, stamps stand (2[5-9]|3[0-5]) minutes before the middle/,
  );
  // Hours of a file that begin at half past keep their numbers.
  const half = await read(dim, stamped('middle'));
  expect(half.start_ms).toBe(JUNE - 1_800_000);
  expect(same(half.ghi_W_m2, late.ghi_W_m2)).toBe(true);
});

test('an offset that each stamp of a stated file has stands over the stated zone', async () => {
  const rows = rowsFrom(JUNE, HOURS, (i) => sky[i]!).map((row) => row.replace(',', 'Z,'));
  const section = { ...SECTION, stamp: { ...SECTION.stamp!, zone: '+02:00' } };
  expect((await read(csvOf(rows), section)).start_ms).toBe(JUNE);
});

test('nothing but the stated columns of a stated file is read', async () => {
  const rows = rowsFrom(JUNE, HOURS, (i) => sky[i]!).map((row) => `${row},5`);
  const record = await read(fileOf(`time,ghi,air,wind (m/s)\n${rows.join('\n')}\n`));
  expect(record.wind_m_s).toBeUndefined();
});
