import { expect, test } from 'vitest';
import { areRanges, stampRange } from '../../sim/tables/stampRanges.ts';
import { readClock } from '../../sim/tables/stampStyles.ts';

test.each([
  ['14:00-15:00', '14:00', '15:00'],
  ['14:00 - 15:00', '14:00', '15:00'],
  ['14.00\u201315.00', '14.00', '15.00'],
  ['14 bis 15 Uhr', '14', '15 Uhr'],
  ['9h to 10h', '9h', '10h'],
  ['14:00 - 15:00 UTC', '14:00 UTC', '15:00 UTC'],
  ['2021-12-31 14:00-15:00', '2021-12-31 14:00', '15:00'],
  ['31-12-2021 23:00 \u2014 01-01-2022 00:00', '31-12-2021 23:00', '01-01-2022 00:00'],
  ['31. 12. 2021, 23:00 to 24:00', '31. 12. 2021, 23:00', '24:00'],
  ['2021-12-31T14:00:00 tot 2021-12-31T15:00:00', '2021-12-31T14:00:00', '2021-12-31T15:00:00'],
])('stampRange parts %s into its ends', (text, from, to) => {
  expect(stampRange(text)).toEqual({ from, to, told: true });
});

test('stampRange says where nothing tells that the numbers are hours', () => {
  expect(stampRange('14-15')).toEqual({ from: '14', to: '15', told: false });
});

test.each([
  '',
  '14:00',
  '2021-12-31 23:00',
  '2021-12-31',
  '31.12.2021 23:00',
  '-5',
  'dark - bright',
  '1e-05',
])('stampRange finds no interval in "%s"', (text) => {
  expect(stampRange(text)).toBeUndefined();
});

test('stampRange gives up on long texts at once', () => {
  expect(stampRange(`${'1 - 2 '.repeat(50_000)}3:00`)).toBeUndefined();
});

/** Clock times from midnight on, so many hours apart, each with what stands behind it. */
const column = (hours: number, end: (hour: number) => string) =>
  Array.from({ length: 240 / hours }, (_, i) => `${(i * hours) % 24}:00-${end((i * hours) % 24)}`);

test.each([1, 3, 6])('areRanges knows intervals of %d hours, the last of which ends at midnight', (hours) => {
  expect(
    areRanges(
      column(hours, (hour) => `${hour + hours}:00`),
      readClock,
    ),
  ).toBe(true);
  expect(
    areRanges(
      column(hours, (hour) => `${(hour + hours) % 24}:00`),
      readClock,
    ),
  ).toBe(true);
});

test('areRanges takes a clock with one offset for none, nor one time of day', () => {
  expect(
    areRanges(
      column(1, () => '05:00'),
      readClock,
    ),
  ).toBe(false);
  expect(areRanges(Array<string>(40).fill('08:00-09:00'), readClock)).toBe(false);
  expect(areRanges([], readClock)).toBe(false);
});

test('areRanges bears five intervals of another length in a hundred', () => {
  const texts = Array.from({ length: 100 }, (_, i) => `${i % 23}:00-${(i % 23) + 1}:00`);
  const odd = (count: number) => texts.map((text, i) => (i < count ? text.replace(/-.*/, '-23:30') : text));
  expect(areRanges(odd(5), readClock)).toBe(true);
  expect(areRanges(odd(6), readClock)).toBe(false);
});
