import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { fileSource } from '../../../sim/tables/TableSource.ts';
import { recognise } from '../../../sim/weather/recognise/recognise.ts';
import { knownSeries } from './knownSeries.ts';
import { problemsOf, readText } from './readText.ts';

const PLACE = { place: { latitude_deg: 54, longitude_deg: 10 } };
const HOUR = 3_600_000;
const known = knownSeries(Date.UTC(2025, 2, 1), 40);
const stamp = (i: number): string =>
  new Date(known.start_ms + i * HOUR).toISOString().slice(0, 16).replace('T', ' ');
const row = (i: number): string =>
  `${stamp(i)},${known.ghi_W_m2[i]!.toFixed(1)},${known.air_degC[i]!.toFixed(1)}`;
const lines = (count = known.count): string[] => Array.from({ length: count }, (_, i) => row(i));
const HEADING = 'time utc,GHI (W/m2),air temperature (degC)';
const file = (rows: readonly string[], heading = HEADING): string => `${heading}\n${rows.join('\n')}\n`;

test.each([
  ['a page of HTML', '<html><body><table><tr><td>1</td></tr></table></body></html>', 'FILE_NOT_TEXT', 'HTML'],
  ['JSON without a time', '{"hourly": {"ghi": [1, 2, 3]}}', 'WEATHER_COLUMN_MISSING', 'JSON'],
  ['a zip archive', Uint8Array.from([0x50, 0x4b, 3, 4, 0, 0]), 'FILE_NOT_TEXT', 'zip'],
  ['an image', Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 13, 10]), 'FILE_NOT_TEXT', 'PNG'],
  ['a zip archive packed again', gzipSync(Uint8Array.from([0x50, 0x4b, 3, 4, 0, 0])), 'FILE_NOT_TEXT', 'zip'],
  ['nothing at all', '', 'FILE_EMPTY', '0 bytes'],
  ['blanks', ' \n\n  \n', 'FILE_EMPTY', 'blanks'],
  [
    'one column of figures',
    Array.from({ length: 200 }, (_, i) => i * 1.5).join('\n'),
    'WEATHER_COLUMN_MISSING',
    'one column',
  ],
  [
    'a long file of zeros',
    Array.from({ length: 20_000 }, () => '0,0,0').join('\n'),
    'WEATHER_STAMP_UNREADABLE',
    '0,0,0',
  ],
  ['a heading without rows', `${HEADING}\n`, 'FILE_EMPTY', 'nothing below'],
  ['words alone', `${HEADING}\nso,much\n`, 'FILE_EMPTY', 'no row of figures'],
  ['a letter', 'Dear garden,\nit was sunny.\nYours\n', 'FILE_EMPTY', ''],
  ['zero bytes among the text', `${HEADING}\n${row(0)}\n\0\0\0`, 'FILE_NOT_TEXT', 'zero byte'],
])('recognise refuses %s', async (_, text, code, got) => {
  const [problem] = await problemsOf(readText([text], PLACE));
  expect(problem!.code).toBe(code);
  expect(problem!.got).toContain(got);
  expect(problem!.file).toBe('made-up-1.csv');
});

test('fileSource refuses a folder and a file that is not there', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'longnight-'));
  writeFileSync(join(folder, 'year.csv'), file(lines()));
  const open = async (path: string): Promise<unknown> => recognise([fileSource(path)], PLACE);
  expect((await problemsOf(open(folder)))[0]).toMatchObject({ code: 'FILE_UNREADABLE', got: 'a folder' });
  const [missing] = await problemsOf(open(join(folder, 'yaer.csv')));
  expect(missing).toMatchObject({ code: 'FILE_MISSING', fix: 'did you mean "year.csv" in the same folder?' });
  await expect(recognise([fileSource(join(folder, 'year.csv'))], PLACE)).resolves.toBeDefined();
});

test('two columns that could both be global irradiance and disagree are refused, and settled by the user', async () => {
  const rows = lines().map((line, i) => `${line},${(known.ghi_W_m2[i]! * 1.2).toFixed(1)}`);
  const text = file(rows, `${HEADING},global radiation (W/m2)`);
  const [problem] = await problemsOf(readText([text], PLACE));
  expect(problem).toMatchObject({ code: 'WEATHER_AMBIGUOUS', field: 'ghi', line: 1 });
  expect(problem!.got).toContain('"GHI (W/m2)" and "global radiation (W/m2)"');
  const { recognition } = await readText([text], {
    ...PLACE,
    columns: { ghi: 'global radiation (W/m2)' },
  });
  expect(recognition.columns[0]).toMatchObject({ quantity: 'ghi', column: 3, reason: 'stated by the user' });
});

test('a column that the user names is read, and where its heading says otherwise this is told', async () => {
  const text = file(lines(), HEADING.replace('GHI (W/m2)', 'plane tilted 30 deg (W/m2)'));
  const { recognition } = await readText([text], { ...PLACE, columns: { ghi: '2' } });
  expect(recognition.columns[0]).toMatchObject({
    quantity: 'ghi',
    reason: 'stated by the user and read as light on level ground, though its heading says otherwise',
  });
});

test('two columns of the same irradiance in two units agree, and the doubt is told', async () => {
  const rows = lines().map((line, i) => `${line},${(known.ghi_W_m2[i]! * 3.6).toFixed(2)}`);
  const { recognition } = await readText([file(rows, `${HEADING},global radiation (kJ/m2)`)], PLACE);
  expect(recognition.doubts).toContainEqual(
    expect.objectContaining({
      about: 'ghi',
      runnerUp: '"global radiation (kJ/m2)"',
      why: 'both hold the same values',
    }),
  );
});

test.each([
  ['inside the time', (text: string) => text.slice(0, text.lastIndexOf('\n', text.length - 2) + 12)],
  ['after the time', (text: string) => text.slice(0, text.lastIndexOf('\n', text.length - 2) + 18)],
  ['inside the last number', (text: string) => text.slice(0, -2)],
])('a file that ends in the middle of a row, %s, is refused', async (_, cut) => {
  const [problem] = await problemsOf(readText([cut(file(lines()))], PLACE));
  expect(problem).toMatchObject({ code: 'FILE_TRUNCATED', file: 'made-up-1.csv' });
});

test('a packed file that breaks off is refused', async () => {
  const packed = gzipSync(file(lines()));
  const [problem] = await problemsOf(readText([packed.subarray(0, packed.length - 40)], PLACE));
  expect(problem!.code).toBe('FILE_TRUNCATED');
});

test('decimal points and decimal commas in one column are refused', async () => {
  const rows = lines().map((line, i) => {
    const [time, ghi, air] = line.split(',');
    return `${time};${i % 2 === 0 ? ghi!.replace('.', ',') : ghi};${air}`;
  });
  const [problem] = await problemsOf(readText([file(rows, HEADING.replaceAll(',', ';'))], PLACE));
  expect(problem!.code).toBe('WEATHER_VALUE_NOT_NUMBER');
  expect(problem!.got).toContain('decimal points and decimal commas');
});

test('decimal commas in a file cut at commas are refused, not shifted', async () => {
  const rows = lines().map((line) => line.replaceAll('.', ','));
  const [problem] = await problemsOf(readText([file(rows)], PLACE));
  expect(problem!.fix).toContain('decimal commas');
});

test('day and month that nothing settles are refused', async () => {
  const rows = Array.from({ length: 20 }, (_, i) => `01/02/2025 ${String(i).padStart(2, '0')}:00,${i},1`);
  const [problem] = await problemsOf(readText([file(rows)], PLACE));
  expect(problem!.code).toBe('WEATHER_AMBIGUOUS');
  expect(problem!.got).toContain('day-month-year or month-day-year');
});

test('a unit that is not stated and that a dull winter does not show is refused with the choices', async () => {
  const winter = knownSeries(Date.UTC(2025, 11, 1), 20);
  const rows = Array.from({ length: winter.count }, (_, i) => {
    const time = new Date(winter.start_ms + i * HOUR).toISOString().slice(0, 16);
    return `${time},${(winter.ghi_W_m2[i]! * 0.45).toFixed(1)},${winter.air_degC[i]!.toFixed(1)}`;
  });
  const [problem] = await problemsOf(readText([file(rows, 'time utc,global radiation,air temp')], PLACE));
  expect(problem!.code).toBe('WEATHER_AMBIGUOUS');
  expect(problem!.got).toMatch(/could be .*(J\/cm2|W\/m2).* or /);
});

test('a stamp that is no time, a value that is no number, a time twice and a time too early are told together', async () => {
  const rows = lines();
  rows[50] = rows[50]!.replace('2025', '2O25');
  rows[60] = rows[60]!.replace(/,[^,]*,/, ',12.x,');
  rows[70] = `${stamp(69)},1.0,1.0`;
  rows[80] = `${stamp(20)},1.0,1.0`;
  const problems = await problemsOf(readText([file(rows)], PLACE));
  expect(problems.map(({ code, line }) => [code, line])).toEqual([
    ['WEATHER_STAMP_UNREADABLE', 52],
    ['WEATHER_VALUE_NOT_NUMBER', 62],
    ['WEATHER_DUPLICATE', 72],
    ['WEATHER_DISORDER', 82],
  ]);
});

test('files that are laid out differently are not read together', async () => {
  const problems = await problemsOf(
    readText([file(lines(100)), file(lines(100), HEADING.replace('air', 'soil'))], PLACE),
  );
  expect(problems[0]).toMatchObject({ code: 'WEATHER_COLUMN_MISSING', file: 'made-up-2.csv' });
});

test('a file without any light is refused with the columns it has', async () => {
  const rows = lines().map((line) => line.replace(/,[^,]*,/, ',75,'));
  const [problem] = await problemsOf(readText([file(rows, 'time utc,humidity,air temp')], PLACE));
  expect(problem).toMatchObject({ code: 'WEATHER_COLUMN_MISSING', field: 'ghi' });
  expect(problem!.got).toContain('"humidity"');
});

test('a zone that does not exist is refused', async () => {
  const problems = await problemsOf(readText([file(lines())], { ...PLACE, zone: 'Europe/Nowhere' }));
  expect(problems[0]).toMatchObject({ code: 'SCENARIO_WRONG_TYPE', field: 'weather.zone' });
});

test.each([
  [(i: number) => String(i + 1)],
  [(i: number) => ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'][i]!],
  [(i: number) => new Date(Date.UTC(2025, i, 1)).toISOString().slice(0, 10)],
])('one row a month is named as such', async (name) => {
  const rows = Array.from(
    { length: 12 },
    (_, i) => `${name(i)},${(3 + Math.sin(i)).toFixed(2)},${10 + i / 10}`,
  );
  const [problem] = await problemsOf(
    readText([file(rows, 'when,global radiation kWh/m2,air temperature')], PLACE),
  );
  expect(problem!.code).toBe('WEATHER_PARTIAL_YEAR');
  expect(problem!.got).toContain('one row a month');
});

test('a column that the user names and that holds no numbers is refused with a cell of it', async () => {
  const withWords = lines().map((line) => line.replace(/,([\d.]+),/, ',$1 or so,'));
  for (const [column, cell] of [
    ['time utc', stamp(0)],
    ['GHI', '0.0 or so'],
  ] as const) {
    const text = file(withWords, HEADING.replace('GHI (W/m2)', 'GHI'));
    const [problem] = await problemsOf(readText([text], { ...PLACE, columns: { ghi: column } }));
    expect(problem).toMatchObject({ code: 'WEATHER_VALUE_NOT_NUMBER', field: column, line: 2 });
    expect(problem!.got).toContain(cell);
  }
  const [empty] = await problemsOf(
    readText(
      [
        file(
          lines().map((line) => `${line},`),
          `${HEADING},none`,
        ),
      ],
      { ...PLACE, columns: { ghi: 'none' } },
    ),
  );
  expect(empty!.got).toBe('empty cells');
});

test('rows that stand there twice with the same values count once, wherever; with others they are refused', async () => {
  const all = lines();
  const known_ = (hourly: Awaited<ReturnType<typeof readText>>['hourly']) =>
    hourly.columns.ghi!.filter((value) => !Number.isNaN(value)).length;
  const once = known_((await readText([file(all)], PLACE)).hourly);
  const twice = await readText([file(all.flatMap((line) => [line, line]))], PLACE);
  expect(known_(twice.hourly)).toBe(once);
  expect(twice.series.notes.join()).toContain('rows that repeat the one before');
  const overlap = await readText([file(all.slice(0, 500)), file(all.slice(450))], PLACE);
  expect(known_(overlap.hourly)).toBe(once);
  expect(overlap.series.notes.join()).toContain('rows that stand there already');
  // A clock that is put back shows an hour twice: that must not count as the same rows again.
  const again = (from: number) => readText([file([...all.slice(0, 500), ...all.slice(from)])], PLACE);
  expect(known_((await again(496)).hourly)).toBe(once);
  for (const from of [497, 498]) expect((await problemsOf(again(from)))[0]!.code).toBe('WEATHER_DISORDER');
  const other = all.slice(450).map((line, i) => (i === 12 ? line.replace(/,[\d.]+,/, ',777.0,') : line));
  const problems = await problemsOf(readText([file(all.slice(0, 500)), file(other)], PLACE));
  expect(problems.map(({ code }) => code)).toContain('WEATHER_DISORDER');
});
