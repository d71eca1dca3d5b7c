import { expect, it } from 'vitest';
import type { Layout } from '../../../sim/weather/recognise/DetectedFormat.ts';
import { wideDays } from '../../../sim/weather/recognise/wideDays.ts';
import { knownSeries } from './knownSeries.ts';
import { problemsOf, readText } from './readText.ts';

const known = knownSeries(Date.UTC(2025, 2, 1), 40);
const days = Array.from({ length: 40 }, (_, day) => {
  const date = new Date(known.start_ms + day * 86_400_000).toISOString().slice(0, 10);
  return { date, hours: Array.from(known.ghi_W_m2.subarray(day * 24, day * 24 + 24)) };
});
const PLACE = { place: { latitude_deg: 54, longitude_deg: 10 }, offset_min: -30 };
const two = (hour: number) => String(hour).padStart(2, '0');
const numbers = (hours: readonly number[]) => hours.map((value) => value.toFixed(2));

const halves = (hours: readonly number[]) => hours.flatMap((value) => [value, value]);

/** Tables of a day a row. */
const TABLES: [name: string, text: string, first: number, count: number][] = [
  [
    'named hours',
    [
      `day,${days[0]!.hours.map((_, hour) => `hour${two(hour)}`).join()}`,
      ...days.map(({ date, hours }) => `${date},${numbers(hours).join()}`),
    ].join('\n'),
    1,
    24,
  ],
  [
    'hours of the clock, decimal commas, a sum behind and footers below',
    [
      `Datum;${days[0]!.hours.map((_, hour) => `${two(hour)}:00`).join(';')};Summe`,
      ...days.map(({ date, hours }) => {
        const sum = hours.reduce((all, value) => all + value, 0);
        return [date, ...numbers([...hours, sum])].join(';').replaceAll('.', ',');
      }),
      'Ende der Tabelle',
    ].join('\n'),
    1,
    24,
  ],
  [
    'numbered hours, day, month and year apart, no word of a heading',
    days
      .map(({ date, hours }) => [...date.split('-').map(Number).reverse(), ...numbers(hours)].join('\t'))
      .join('\n'),
    3,
    24,
  ],
  [
    'year, month and day before the hours, small beside a bright noon',
    [
      `good,year,month,day,${days[0]!.hours.map((_, hour) => `${two(hour)}-${two(hour + 1)}`).join()}`,
      ...days.map(({ date, hours }) => `0,${date.split('-').map(Number).join()},${numbers(hours).join()}`),
    ].join('\n'),
    4,
    24,
  ],
  [
    'half hours',
    days.map(({ date, hours }) => `${date};${numbers(halves(hours)).join(';')}`).join('\n'),
    1,
    48,
  ],
];

it.each(TABLES)('reads a table of a day a row: %s', async (_, text, first, count) => {
  const units = count === 24 ? {} : ({ units: { ghi: 'W/m2' } } as const);
  const { recognition, hourly, series } = await readText([text], { ...PLACE, ...units });
  expect(recognition.files[0]!.layout.wide).toEqual({ first, count });
  expect(recognition.columns).toMatchObject([{ quantity: 'ghi', unit: 'W/m2' }]);
  expect(series.fileStep_s).toBe(86_400 / count);
  const at = (known.start_ms - hourly.start_ms) / 3_600_000;
  known.ghi_W_m2.forEach((value, i) => {
    if (count === 24) expect(hourly.columns.ghi![at + i]).toBeCloseTo(value, 1);
  });
});

it('joins two files of days, whatever the order they are named in, and refuses a cell that is no number', async () => {
  const [name, ...rows] = TABLES[0]![1].split('\n');
  const parts = [rows.slice(20), rows.slice(0, 20)].map((some) => [name, ...some].join('\n'));
  const { hourly } = await readText(parts, PLACE);
  expect(hourly.columns.ghi!.filter((value) => !Number.isNaN(value)).length).toBeGreaterThanOrEqual(959);
  rows[30] = rows[30]!.replace(/,[\d.]+$/, ',dark');
  const [problem] = await problemsOf(readText([[name, ...rows].join('\n')], PLACE));
  expect(problem).toMatchObject({
    code: 'WEATHER_VALUE_NOT_NUMBER',
    line: 32,
    got: expect.stringContaining('dark'),
  });
});

/** Rows of a date and 24 numbers. */
function found(means: readonly number[], count = 12) {
  const rows = Array.from({ length: count }, (_, day) => [`2025-03-${two(day + 1)}`, ...means.map(String)]);
  const layout: Layout = {
    delimiter: ',',
    decimal: '.',
    firstDataLine: 1,
    width: means.length + 1,
    headings: [],
    units: [],
    legends: [],
    preamble: [],
  };
  return wideDays({ rows, layout, lines: rows.map((_, i) => i + 1) });
}

const DAY = Array.from({ length: 24 }, (_, hour) => Math.max(0, 100 * Math.sin(((hour - 6) / 12) * Math.PI)));
const with_ = (at: number, value: number) => DAY.map((own, hour) => (hour === at ? value : own));

it('takes rows for days where their columns are dark, bright and dark again', () => {
  expect(found(DAY)).toEqual({ first: 1, count: 24 });
  expect(found(DAY, 10)).toBeDefined();
  expect(found(DAY, 9)).toBeUndefined();
  expect(found(with_(0, 1.9))).toBeDefined();
  expect(found(with_(0, 2.1))).toBeUndefined();
  expect(found(with_(23, 1.9))).toBeDefined();
  expect(found(with_(23, 2.1))).toBeUndefined();
  // A dull noon is still a day; two bright stretches are none.
  expect(found(with_(12, 51))).toBeDefined();
  expect(found(with_(12, 48))).toBeUndefined();
  expect(found(DAY.map((_, hour) => (hour === 12 ? 100 : 0)))).toBeUndefined();
  expect(found(DAY.slice(0, 23))).toBeUndefined();
  expect(found(DAY.map(() => 20))).toBeUndefined();
  expect(found(DAY.map(() => 0))).toBeUndefined();
});
