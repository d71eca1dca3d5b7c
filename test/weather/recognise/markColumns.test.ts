import { expect, it } from 'vitest';
import type { Layout } from '../../../sim/weather/recognise/DetectedFormat.ts';
import { marksUnread } from '../../../sim/weather/recognise/markColumns.ts';
import { knownSeries } from './knownSeries.ts';
import { readText } from './readText.ts';

const known = knownSeries(Date.UTC(2025, 2, 1), 40);
const PLACE = { place: { latitude_deg: known.latitude_deg, longitude_deg: known.longitude_deg } };

/** What is said of the marks of a file, each a column of its own. */
async function marksOf(columns: Record<string, (i: number) => string>): Promise<string[]> {
  const rows = Array.from({ length: known.count }, (_, i) => {
    const time = new Date(known.start_ms + i * 3_600_000).toISOString().slice(0, 16);
    const marks = Object.values(columns).map((mark) => mark(i));
    return [time, known.ghi_W_m2[i]!.toFixed(1), ...marks].join(';');
  });
  const text = `${['time utc', 'GHI', ...Object.keys(columns)].join(';')}\n${rows.join('\n')}\n`;
  return (await readText([text], PLACE)).recognition.marks;
}

it('says of a column of marks how many rows differ from the usual one', async () => {
  expect(await marksOf({ status: (i) => (i % 96 === 5 ? 'suspect' : 'ok') })).toEqual([
    '"status" is not read, in which 10 of 960 rows have another mark than "ok"',
  ]);
  expect(await marksOf({ GHI_flag: (i) => (i < 3 ? '9' : '0') })).toEqual([
    '"GHI_flag" is not read, in which 3 of 960 rows have another mark than "0"',
  ]);
  expect(await marksOf({ remark: (i) => (i < 3 ? 'snow' : '') })).toEqual([
    '"remark" is not read, in which 3 of 960 rows bear a mark',
  ]);
});

it('says nothing of marks that are all the same, nor of the numbers of an uncertainty', async () => {
  expect(await marksOf({ quality: () => '1', uncertainty: (i) => String(1 + (i % 13)) })).toEqual([]);
  expect(await marksOf({ quality: () => '1', uncertainty: (i) => String(1 + (i % 12)) })).toHaveLength(1);
});

it('names three such columns and counts the rest', async () => {
  const flag = (i: number): string => String(i % 2);
  const four = { 'qc 1': flag, 'qc 2': flag, 'qc 3': flag, 'qc 4': flag };
  expect((await marksOf(four)).at(-1)).toBe('and 1 more');
});

it('says where only a part of the rows was looked at', () => {
  const layout: Layout = {
    delimiter: ',',
    decimal: '.',
    firstDataLine: 2,
    width: 2,
    headings: ['time', 'flag'],
    units: ['', ''],
    legends: ['', ''],
    preamble: [],
  };
  const rows = [
    ['1', 'G'],
    ['2', 'G'],
    ['3', 'Y'],
  ];
  expect(marksUnread(layout, rows, false, [{ column: 0 }])).toEqual([
    '"flag" is not read, in which 1 of 3 rows looked at have another mark than "G"',
  ]);
});
