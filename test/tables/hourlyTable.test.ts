import { createHash } from 'node:crypto';
import { expect, test } from 'vitest';
import { describeProblem } from '../../sim/common/InputProblem.ts';
import { readHourlyTable } from '../../sim/tables/hourlyTable.ts';
import { csvOf, fileOf, MAPPING, problemsOf, rowsFrom } from './hourlyText.ts';

const START = Date.UTC(2021, 0, 1);
const read = (text: string, mapping = MAPPING) => readHourlyTable(fileOf(text), mapping);

test('readHourlyTable gives hours, columns in canonical units and the digest of the bytes', () => {
  const file = csvOf(['2021-01-01 00:00,36,41', '2021-01-01 01:00,72,50']);
  const series = readHourlyTable(file, {
    ...MAPPING,
    columns: { ghi: { column: 'ghi', unit: 'J/cm2' }, air: { column: 'air', unit: 'degF' } },
  });
  expect(series.start_ms).toBe(START);
  expect(series.count).toBe(2);
  expect([...series.columns.ghi!]).toEqual([100, 200]);
  expect([...series.columns.air!]).toEqual([5, 10]);
  expect([...series.line]).toEqual([2, 3]);
  expect(series.sha256).toBe(createHash('sha256').update(file.bytes).digest('hex'));
});

test.each([
  ['start', 0],
  ['middle', -30],
  ['end', -60],
] as const)('readHourlyTable puts a stamp that marks the %s of its hour %d minutes off', (marks, minutes) => {
  const series = readHourlyTable(csvOf(rowsFrom(START, 3)), {
    ...MAPPING,
    stamp: { ...MAPPING.stamp, marks },
  });
  expect(series.start_ms).toBe(START + minutes * 60_000);
});

test('readHourlyTable takes a fixed offset away', () => {
  for (const [zone, hours] of [
    ['+01:00', -1],
    ['UTC+1', -1],
    ['-03:30', 3.5],
  ] as const) {
    const series = readHourlyTable(csvOf(rowsFrom(START, 3)), {
      ...MAPPING,
      stamp: { ...MAPPING.stamp, zone },
    });
    expect(series.start_ms).toBe(START + hours * 3_600_000);
  }
});

test.each([
  ['a byte order mark and CRLF', '\ufefftime,ghi,air\r\n2021-01-01 00:00,1,2\r\n2021-01-01 01:00,3,4\r\n'],
  ['semicolons', 'time;ghi;air\n2021-01-01 00:00;1;2\n2021-01-01 01:00;3;4\n'],
  ['tabs', 'time\tghi\tair\n2021-01-01 00:00\t1\t2\n2021-01-01 01:00\t3\t4\n'],
  ['quotes and blanks', '"time", ghi ,"air"\n"2021-01-01 00:00", 1 ,"2"\n"2021-01-01 01:00",3,4'],
  ['a preamble', 'made up\nplace;here\n\ntime,ghi,air\n2021-01-01 00:00,1,2\n2021-01-01 01:00,3,4\n'],
  ['other columns and blank lines', 'a,air,time,ghi\nx,2,2021-01-01 00:00,1\n\nx,4,2021-01-01 01:00,3\n\n'],
  ['hours 1 to 24', 'time,ghi,air\n2020123124,1,2\n2021010101,3,4\n'],
])('readHourlyTable reads a file with %s', (_, text) => {
  const series = read(text);
  expect(series.start_ms).toBe(START);
  expect([...series.columns.ghi!]).toEqual([1, 3]);
  expect([...series.columns.air!]).toEqual([2, 4]);
});

test('readHourlyTable reads UTF-16 and Latin-1 headings', () => {
  const text = 'time,Öst,air\n2021-01-01 00:00,1,2\n';
  const mapping = { ...MAPPING, columns: { ghi: { column: 'Öst', unit: 'W/m2' } } } as const;
  for (const bytes of [Buffer.from(`\ufeff${text}`, 'utf16le'), Buffer.from(text, 'latin1')]) {
    expect(readHourlyTable({ name: 'made-up.csv', bytes }, mapping).columns.ghi![0]).toBe(1);
  }
});

test('readHourlyTable keeps the leap day of a leap year', () => {
  const series = readHourlyTable(csvOf(rowsFrom(Date.UTC(2020, 0, 1), 8784)), MAPPING);
  expect(series.count).toBe(8784);
});

test('readHourlyTable refuses an empty file, a blank one and a heading with no rows', () => {
  for (const text of ['', ' \n\n', 'time,ghi,air\n']) {
    expect(problemsOf(() => read(text))[0]).toMatchObject({ code: 'FILE_EMPTY', file: 'made-up.csv' });
  }
  expect(problemsOf(() => read('time,ghi,air\n'))[0]!.got).toBe('a heading row and nothing below it');
});

test.each([
  ['a zip archive', [0x50, 0x4b, 3, 4, 0]],
  ['a PNG image', [0x89, 0x50, 0x4e, 0x47, 0]],
  ['a zero byte at position 3', [65, 66, 0, 67]],
  ['a control character at position 2', [65, 1, 66]],
])('readHourlyTable refuses %s', (got, bytes) => {
  const [problem] = problemsOf(() => readHourlyTable({ name: 'x', bytes: Uint8Array.from(bytes) }, MAPPING));
  expect(problem!.code).toBe('FILE_NOT_TEXT');
  expect(problem!.got).toContain(got);
});

test.each([
  ['2021-01-01 00:00,1,2\n2021-01-01 01:00,3', 'a last row of 2 cells after rows of 3'],
  ['2021-01-01 00:00,1,2\n2021-01-01 01:00,3,4\n2021-01-', 'a last row of 1 cells'],
  ['2021-01-01 00:00,1,2.55\n2021-01-01 01:00,3,4.75\n2021-01-01 02:00,3,4.', 'ends in "4."'],
  ['2021-01-01 00:00,1,2\n2021-01-01 01:00,"3', 'a quote that is never closed'],
])('readHourlyTable refuses a file that breaks off: %j', (rows, got) => {
  const problem = problemsOf(() => read(`time,ghi,air\n${rows}`)).find(
    ({ code }) => code === 'FILE_TRUNCATED',
  );
  expect(problem!.got).toContain(got);
  expect(problem!.line).toBeGreaterThanOrEqual(3);
});

test('readHourlyTable offers the columns there are, the nearest first', () => {
  const [problem, ...others] = problemsOf(() =>
    read('time,global,ghi_W,air\n2021-01-01 00:00,1,2,3\n2021-01-01 01:00,1,2,3\n'),
  );
  expect(others).toEqual([]);
  expect(describeProblem(problem!)).toBe(
    'WEATHER_COLUMN_MISSING  made-up.csv:1, "ghi"\n  got the columns "ghi_W", "air", "time", "global"; expected a column "ghi". Fix: did you mean "ghi_W"?',
  );
});

test('readHourlyTable refuses a heading that stands twice', () => {
  const [problem] = problemsOf(() => read('time,ghi,air,ghi\n2021-01-01 00:00,1,2,3\n'));
  expect(problem).toMatchObject({ code: 'WEATHER_AMBIGUOUS', field: 'ghi', line: 1 });
  expect(problem!.got).toContain('columns 2 and 4');
});

test('readHourlyTable refuses a stamp that is not a time, without calling it a gap as well', () => {
  const rows = rowsFrom(Date.UTC(2021, 1, 28, 22), 6);
  rows[2] = '2021-02-29 00:00,0,4.5';
  const problems = problemsOf(() => readHourlyTable(csvOf(rows), MAPPING));
  expect(problems).toHaveLength(1);
  expect(problems[0]).toMatchObject({
    code: 'WEATHER_STAMP_UNREADABLE',
    line: 4,
    column: 1,
    field: 'time',
    got: '"2021-02-29 00:00"',
  });
  expect(problems[0]!.expected).toContain('a time that exists');
});

test('readHourlyTable counts what is wrong in the same way beyond five', () => {
  const rows = rowsFrom(START, 20, (i) => (i < 9 ? 'n/a' : 1));
  const problems = problemsOf(() => readHourlyTable(csvOf(rows), MAPPING));
  expect(problems).toHaveLength(5);
  expect(problems[4]).toMatchObject({ got: '"n/a"', more: 4 });
  expect(describeProblem(problems[4]!)).toContain('got "n/a" ... and 4 more like it;');
});

test('readHourlyTable refuses day and month that could be swapped', () => {
  const [problem] = problemsOf(() => read('time,ghi,air\n01/02/2021 00:00,1,2\n01/02/2021 01:00,1,2\n'));
  expect(problem!.code).toBe('WEATHER_AMBIGUOUS');
  expect(problem!.got).toContain('day-month-year or month-day-year');
});

test('readHourlyTable names a gap in the rows with its ends and hours', () => {
  const rows = rowsFrom(START, 10);
  rows.splice(4, 3);
  const problems = problemsOf(() => readHourlyTable(csvOf(rows), MAPPING));
  expect(problems).toHaveLength(1);
  expect(problems[0]).toMatchObject({ code: 'WEATHER_GAP', line: 6, field: 'time' });
  expect(problems[0]!.got).toBe('no rows from 2021-01-01 04:00 UTC to 2021-01-01 07:00 UTC (3 hours)');
});

test('readHourlyTable says that a left-out 29 February is one', () => {
  const rows = rowsFrom(Date.UTC(2020, 1, 28), 72);
  rows.splice(24, 24);
  expect(problemsOf(() => readHourlyTable(csvOf(rows), MAPPING))[0]!.fix).toContain('29 February');
});

test('readHourlyTable names a gap in the values, by text and by number of the missing code', () => {
  const rows = rowsFrom(START, 10, (i) => (i === 3 ? '-999.00' : i === 4 ? '' : 5));
  const problems = problemsOf(() => readHourlyTable(csvOf(rows), MAPPING));
  expect(problems).toHaveLength(1);
  expect(problems[0]).toMatchObject({ code: 'WEATHER_GAP', line: 5, column: 2, field: 'ghi' });
  expect(problems[0]!.got).toBe(
    'no values from 2021-01-01 03:00 UTC to 2021-01-01 05:00 UTC (2 hours, lines 5 to 6)',
  );
});

test('readHourlyTable takes an empty cell for no number when no code says it is missing, never for 0', () => {
  const rows = rowsFrom(START, 3, (i) => (i === 1 ? '' : 5));
  const [problem] = problemsOf(() => readHourlyTable(csvOf(rows), { ...MAPPING, missing: ['-999'] }));
  expect(problem).toMatchObject({ code: 'WEATHER_VALUE_NOT_NUMBER', got: 'an empty cell', line: 3 });
  expect(problem!.fix).toContain('add "" to weather.missing');
});

test('readHourlyTable finds duplicates with the line of the first', () => {
  const rows = rowsFrom(START, 5);
  rows.splice(3, 0, rows[2]!);
  const problems = problemsOf(() => readHourlyTable(csvOf(rows), MAPPING));
  expect(problems).toHaveLength(1);
  expect(problems[0]).toMatchObject({ code: 'WEATHER_DUPLICATE', line: 5 });
  expect(problems[0]!.got).toBe('the hour from 2021-01-01 02:00 UTC again (first on line 4)');
});

test('readHourlyTable refuses rows that go back in time', () => {
  const rows = rowsFrom(START, 6);
  rows.splice(2, 2, rows[3]!, rows[2]!);
  const problems = problemsOf(() => readHourlyTable(csvOf(rows), MAPPING));
  expect(problems).toHaveLength(1);
  expect(problems[0]).toMatchObject({ code: 'WEATHER_DISORDER', line: 5 });
  expect(problems[0]!.fix).toContain('sort');
});

test('readHourlyTable refuses values that are not numbers, and decimal commas with their own fix', () => {
  const text = 'time;ghi;air\n2021-01-01 00:00;12,5;1\n2021-01-01 01:00;0x10;1\n2021-01-01 02:00;1e2;1\n';
  const problems = problemsOf(() => read(text));
  expect(problems.map(({ code, line, got }) => [code, line, got])).toEqual([
    ['WEATHER_VALUE_NOT_NUMBER', 2, '"12,5"'],
    ['WEATHER_VALUE_NOT_NUMBER', 3, '"0x10"'],
  ]);
  expect(problems[0]!.fix).toBe('write decimals with a point.');
  expect(problems[0]!.expected).toBe('a number in W/m2');
});

test('readHourlyTable never lets a decimal comma shift the columns', () => {
  const problems = problemsOf(() =>
    read('time,ghi,air\n2021-01-01 00:00,1,5,2,5\n2021-01-01 01:00,1,5,2,5\n'),
  );
  expect(problems[0]).toMatchObject({ code: 'WEATHER_VALUE_NOT_NUMBER', got: 'a row of 5 cells', line: 2 });
  expect(problems[0]!.fix).toContain('decimal commas');
});

test('readHourlyTable refuses steps other than an hour', () => {
  const [problem] = problemsOf(() => read('time,ghi,air\n2021-01-01 00:00,1,2\n2021-01-01 00:10,1,2\n'));
  expect(problem).toMatchObject({ code: 'WEATHER_STAMP_UNREADABLE', got: 'rows 10 minutes apart' });
});

test('readHourlyTable refuses a single row off the hour', () => {
  const rows = rowsFrom(START, 8);
  rows[4] = '2021-01-01 04:13,0,4.5';
  const problems = problemsOf(() => readHourlyTable(csvOf(rows), MAPPING));
  expect(problems).toHaveLength(1);
  expect(problems[0]!.got).toContain('13 minutes off');
});

test('readHourlyTable refuses an unknown zone', () => {
  const mapping = { ...MAPPING, stamp: { ...MAPPING.stamp, zone: 'Europe/Berlin' } };
  const problems = problemsOf(() => readHourlyTable(csvOf(rowsFrom(START, 3)), mapping));
  expect(problems.map(({ code, field }) => [code, field])).toEqual([['SCENARIO_WRONG_TYPE', 'stamp.zone']]);
});

test('readHourlyTable reports everything wrong with a file at once, in its order', () => {
  const rows = rowsFrom(START, 12, (i) => (i === 2 ? 'x' : i === 4 ? -999 : 1));
  rows[6] = 'noon,1,1';
  rows.splice(9, 1);
  const problems = problemsOf(() => readHourlyTable(csvOf(rows), MAPPING));
  expect(problems.map(({ code }) => code)).toEqual([
    'WEATHER_VALUE_NOT_NUMBER',
    'WEATHER_GAP',
    'WEATHER_STAMP_UNREADABLE',
    'WEATHER_GAP',
  ]);
});
