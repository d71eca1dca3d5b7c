import { expect, test } from 'vitest';
import { stampRange } from '../../sim/tables/stampRanges.ts';

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
