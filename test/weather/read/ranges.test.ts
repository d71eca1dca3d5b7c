import { expect, test } from 'vitest';
import { HOUR_MS } from '../../../sim/common/time.ts';
import { knownSeries } from '../recognise/knownSeries.ts';
import { problemsOf, readText } from '../recognise/readText.ts';

const known = knownSeries(Date.UTC(2025, 2, 1), 40);
const PLACE = { place: { latitude_deg: 54, longitude_deg: 10 } };
const two = (value: number): string => String(value).padStart(2, '0');

/** A row an hour; the day as it is written, the hours from and to, from 0 to 24. */
const fileOf = (heading: string, stamp: (day: string, from: string, to: string, next: string) => string) =>
  [
    heading,
    ...Array.from(known.ghi_W_m2, (light, i) => {
      const day = (k: number) => new Date(known.start_ms + k * HOUR_MS).toISOString().slice(0, 10);
      const to = two((i % 24) + 1);
      return `${stamp(day(i), two(i % 24), to, day(i + 1))};${light.toFixed(2)}`;
    }),
  ].join('\n');
const dotted = (day: string): string => day.split('-').reverse().join('.');

test.each([
  ['a dash', fileOf('day;hours UTC;ghi W/m2', (day, from, to) => `${day};${from}:00-${to}:00`)],
  ['a dash and blanks', fileOf('day;hours UTC;ghi W/m2', (day, from, to) => `${day};${from}:00 - ${to}:00`)],
  ['a long dash', fileOf('day;slot UTC;ghi W/m2', (day, from, to) => `${day};${from}.00\u2013${to}.00`)],
  ['whole hours', fileOf('day;from-to UTC;ghi W/m2', (day, from, to) => `${day};${from}-${to}`)],
  ['a word', fileOf('Tag;Stunde UTC;ghi W/m2', (day, from, to) => `${dotted(day)};${+from} bis ${+to} Uhr`)],
  ['the date before', fileOf('when UTC;ghi W/m2', (day, from, to) => `${dotted(day)} ${from}:00-${to}:00`)],
  [
    'a date at either end',
    fileOf('when UTC;ghi W/m2', (day, from, to, next) => {
      return `${dotted(day)} ${from}:00 - ${dotted(next)} ${to === '24' ? '00' : to}:00`;
    }),
  ],
])('hours that are stated from start to end with %s are read from their start', async (_, text) => {
  const { recognition, series } = await readText([text], PLACE);
  expect(recognition.stamp).toMatchObject({
    zone: { offset_min: 0 },
    label: { label: 'start' },
    step_s: 3600,
  });
  expect(series.stamp_ms[0]).toBe(known.start_ms);
  expect(series.stamp_ms).toHaveLength(known.count);
  expect(series.columns.ghi![12]).toBeCloseTo(known.ghi_W_m2[12]!, 1);
});

test('a clock with its offset is no interval', async () => {
  const text = fileOf('day;clock;ghi W/m2', (day, from) => `${day};${from}:00-03:00`);
  const { recognition, series } = await readText([text], PLACE);
  expect(recognition.stamp.zone.kind).toBe('each');
  expect(series.stamp_ms[0]).toBe(known.start_ms + 3 * HOUR_MS);
});

test('a row of which the interval lacks its end is refused by its line', async () => {
  const text = fileOf('day;hours UTC;ghi W/m2', (day, from, to) => `${day};${from}:00-${to}:00`);
  const [problem] = await problemsOf(readText([text.replace('08:00-09:00', '08:00-')], PLACE));
  expect(problem).toMatchObject({
    code: 'WEATHER_STAMP_UNREADABLE',
    line: 10,
    got: expect.stringContaining('08:00-'),
  });
});
