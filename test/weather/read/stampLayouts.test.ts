import { expect, test } from 'vitest';
import { DAY_MS, HOUR_MS } from '../../../sim/common/time.ts';
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

/** Sheets keep a time of day as a share of the day. */
const share = (from: string, digits: number): string => (Number(from) / 24).toFixed(digits);

test.each([
  [
    'a date',
    fileOf('Tag;Zeit UTC;ghi W/m2', (day, from) => `${dotted(day)};${share(from, 6).replace('.', ',')}`),
  ],
  ['four digits', fileOf('day;time UTC;ghi W/m2', (day, from) => `${day};${share(from, 4)}`)],
  [
    'a day of the sheet',
    fileOf('date;time UTC;ghi W/m2', (day, from) => `${Date.parse(day) / DAY_MS + 25_569};${share(from, 9)}`),
  ],
])('a time of day that is a share of the day is read beside %s', async (_, written) => {
  const text = written.replaceAll(/(\d)\.(\d\d)$/gm, written.includes('0,') ? '$1,$2' : '$1.$2');
  const { recognition, series } = await readText([text], PLACE);
  expect(recognition.stamp.parts[1]).toMatchObject({ part: 'day fraction' });
  expect([...series.stamp_ms]).toEqual(
    Array.from(known.ghi_W_m2, (_light, i) => known.start_ms + i * HOUR_MS),
  );
});

test.each([
  ['MEZ', 'MESZ'],
  ['CET', 'CEST'],
])('the letters %s and %s behind each stamp are its offset', async (standard, summer) => {
  const put_ms = Date.UTC(2025, 2, 30, 1);
  const rows = Array.from(known.ghi_W_m2, (light, i) => {
    const utc_ms = known.start_ms + i * HOUR_MS;
    const isSummer = utc_ms >= put_ms;
    const wall = new Date(utc_ms + (isSummer ? 2 : 1) * HOUR_MS).toISOString();
    return `${dotted(wall.slice(0, 10))} ${wall.slice(11, 16)} ${isSummer ? summer : standard};${light.toFixed(1)}`;
  });
  const { recognition, series } = await readText([['Zeit;Global W/m2', ...rows].join('\n')], PLACE);
  expect(recognition.files[0]!.layout).toMatchObject({ delimiter: ';', headings: ['Zeit', 'Global W/m2'] });
  expect(recognition.stamp.zone.kind).toBe('each');
  expect([...series.stamp_ms]).toEqual(rows.map((_, i) => known.start_ms + i * HOUR_MS));
});

test('a day without its year is laid on 2001 where the month stands first, else the year is asked for', async () => {
  const monthFirst = fileOf('time UTC;ghi W/m2', (day, from) => `${day.slice(5)} ${from}:00`);
  const { recognition, series } = await readText([monthFirst], PLACE);
  expect(recognition.stamp.typicalYear).toBe(true);
  expect(series.stamp_ms[0]).toBe(Date.UTC(2001, 2, 1));
  const dayFirst = fileOf(
    'time UTC;ghi W/m2',
    (day, from) => `${dotted(day.slice(5)).replace('.', '-')} ${from}:00`,
  );
  for (const text of [dayFirst, dayFirst.replaceAll(/^(\d\d)-(\d\d) /gm, '$1.$2. ')]) {
    const [problem] = await problemsOf(readText([text], PLACE));
    expect(problem).toMatchObject({
      code: 'WEATHER_STAMP_UNREADABLE',
      fix: expect.stringContaining('with the year'),
    });
  }
  // A number with a point in it is no such day.
  const counted = fileOf('step;ghi W/m2', () => '7');
  const [problem] = await problemsOf(readText([counted], PLACE));
  expect(problem!.fix).toBe('export it with date and time, or name the stamp column.');
});

test.each([
  [3, undefined],
  [4, 'rows 4 hours apart'],
  [6, 'rows 6 hours apart'],
  [72, 'rows 3 days apart'],
])('rows %s hours apart are read, or refused with how far they are', async (hours, got) => {
  const [heading, ...rows] = fileOf('time UTC;ghi W/m2', (day, from) => `${day} ${from}:00`).split('\n');
  const text = [heading, ...rows.filter((_, i) => i % hours === 0)].join('\n');
  if (got === undefined) expect((await readText([text], PLACE)).series.step_s).toBe(hours * 3600);
  else
    expect((await problemsOf(readText([text], PLACE)))[0]).toMatchObject({
      code: 'WEATHER_PARTIAL_YEAR',
      got: expect.stringContaining(got),
    });
});
