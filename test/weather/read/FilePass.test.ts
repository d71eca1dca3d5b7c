import { expect, test } from 'vitest';
import { problemsOf, readText } from '../recognise/readText.ts';

const PLACE = { place: { latitude_deg: 54, longitude_deg: 10 } };
const two = (value: number): string => String(value).padStart(2, '0');

/** Hours with date and clock in columns of their own; the first midnights lack their clock, or have a word there. */
const hours = (count: number, midnights: number, clock = ''): string => {
  const rows = Array.from({ length: count }, (_, i) => {
    const date = new Date(Date.UTC(2025, 0, 1, i));
    const light = (Math.max(0, -Math.cos((i / 12) * Math.PI)) * 500).toFixed(1);
    const lacks = i % 24 === 0 && i > 0 && i / 24 <= midnights;
    const time = lacks ? clock : `${two(date.getUTCHours())}:00`;
    return `${date.toISOString().slice(0, 10)};${time};${light};${(5 + (i % 7)).toFixed(1)}`;
  });
  return `date;UTC (start);ghi W/m2;air degC\n${rows.join('\n')}\n`;
};

test.each([
  [8760, 255],
  [200, 5],
])('of %i rows %i without a whole time are passed over', async (count, midnights) => {
  const { series } = await readText([hours(count, midnights)], PLACE);
  expect(series.stamp_ms).toHaveLength(count - midnights);
  expect(series.notes).toEqual([`${midnights} lines that are no rows (footers, notes)`]);
});

test.each([
  [8760, 256],
  [200, 6],
])('of %i rows %i without a whole time are too many to be passed over', async (count, midnights) => {
  expect(await problemsOf(readText([hours(count, midnights)], PLACE))).toEqual([
    {
      code: 'WEATHER_STAMP_UNREADABLE',
      file: expect.any(String),
      line: 26,
      field: 'date',
      got: `a line like a row, whose time is not whole, and ${midnights - 1} more of them`,
      expected: 'a time in every row',
      fix: 'complete the times, or take these lines away.',
    },
  ]);
});

test('totals of days, which a word names, are no rows', async () => {
  const { series } = await readText([hours(8760, 364, 'total')], PLACE);
  expect(series.stamp_ms).toHaveLength(8760 - 364);
});
