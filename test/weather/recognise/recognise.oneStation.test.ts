import { expect, test } from 'vitest';
import { knownSeries } from './knownSeries.ts';
import { problemsOf, readText } from './readText.ts';

const HOUR = 3_600_000;
const known = knownSeries(Date.UTC(2025, 2, 1), 40);
const PLACE = { place: { latitude_deg: known.latitude_deg, longitude_deg: known.longitude_deg } };
const HEADING = 'record,start utc,GHI (W/m2),air temperature (degC)';
const NAMES = ['Long Meadow', 'Quarry', 'Weir'];

const row = (name: string, i: number, share: number): string =>
  [
    name,
    new Date(known.start_ms + i * HOUR).toISOString().slice(0, 16),
    (known.ghi_W_m2[i]! * share).toFixed(2),
    known.air_degC[i]!.toFixed(1),
  ].join();
const hours = Array.from({ length: known.count }, (_, i) => i);
const blocks = NAMES.flatMap((name, k) => hours.map((i) => row(name, i, 1 - 0.1 * k)));
const interleaved = hours.flatMap((i) => NAMES.map((name, k) => row(name, i, 1 - 0.1 * k)));
const file = (rows: readonly string[]): string => `${[HEADING, ...rows].join('\n')}\n`;

test.each([
  ['in blocks', blocks],
  ['row by row', interleaved],
])('several records in one file, %s, are named with what to type', async (_, rows) => {
  const [problem] = await problemsOf(readText([file(rows)], PLACE));
  expect(problem).toMatchObject({ code: 'WEATHER_AMBIGUOUS', field: 'record' });
  expect(problem!.typed).toEqual(['--station "Long Meadow"', '--station Quarry', '--station Weir']);
});

test.each([
  ['in blocks', blocks],
  ['row by row', interleaved],
])('the one that is meant is read and no other, %s', async (_, rows) => {
  const { series, recognition } = await readText([file(rows)], { ...PLACE, station: 'quarry' });
  expect(recognition.station).toEqual({ column: 0, name: 'Quarry' });
  expect(series.stamp_ms.length).toBe(known.count);
  expect(series.columns.ghi![12]).toBeCloseTo(known.ghi_W_m2[12]! * 0.9, 2);
});

test('a station that the file does not hold is answered with those it holds', async () => {
  const [problem] = await problemsOf(readText([file(blocks)], { ...PLACE, station: 'Mill' }));
  expect(problem).toMatchObject({ code: 'WEATHER_COLUMN_MISSING', field: 'Mill' });
  expect(problem!.typed).toContain('--station Weir');
  const alone = file(hours.map((i) => row('x', i, 1)));
  const [none] = await problemsOf(readText([alone], { ...PLACE, station: 'Mill' }));
  expect(none!.fix).toBe('leave --station out.');
});

test('records told apart by numbers are found by the word over them', async () => {
  const numbered = blocks.map((line) => line.replace(/^[^,]*/, (name) => String(4000 + name.length)));
  const [problem] = await problemsOf(readText([file(numbered).replace('record', 'station')], PLACE));
  expect(problem!.typed![0]).toBe('--station 4011');
});

test('a word that changes with the weather, and a sensor changed on the way, make no second record', async () => {
  const rows = hours.map((i) => row(i % 7 < 3 ? 'cloudy' : 'clear', i, 1));
  expect((await readText([file(rows)], PLACE)).recognition.station).toBeUndefined();
  const changed = hours.map((i) => row(i < 500 ? 'first' : 'second', i, 1));
  expect((await readText([file(changed)], PLACE)).series.stamp_ms.length).toBe(known.count);
});

test('names and stamps with blanks inside do not make blanks part the cells, though the first thousands of rows would', async () => {
  const rows = ['Meadow', 'Old Quarry'].flatMap((name) =>
    Array.from({ length: 7000 }, (_, i) => {
      const stamp = new Date(known.start_ms + i * HOUR).toISOString().slice(0, 16).replace('T', ' ');
      return [name, stamp, known.ghi_W_m2[i % known.count]!.toFixed(2), '5.5'].join('\t');
    }),
  );
  const text = [HEADING.replaceAll(',', '\t'), ...rows].join('\n');
  const [problem] = await problemsOf(readText([`${text}\n`], PLACE));
  expect(problem!.typed).toEqual(['--station Meadow', '--station "Old Quarry"']);
});
