import fc from 'fast-check';
import { expect, test } from 'vitest';
import { chooseStampStyle, parseStamp, stampReader } from '../../sim/tables/stampReader.ts';
import { dateMs, parseOffset, STAMP_STYLES } from '../../sim/tables/stampStyles.ts';

const [yearFirst, dayFirst, monthFirst, packed] = STAMP_STYLES as [
  (typeof STAMP_STYLES)[0],
  (typeof STAMP_STYLES)[0],
  (typeof STAMP_STYLES)[0],
  (typeof STAMP_STYLES)[0],
];
const noon = Date.UTC(2021, 11, 5, 13, 0);

test.each([
  ['2021-12-05 13:00', yearFirst],
  ['2021-12-05T13:00:00Z', yearFirst],
  ['2021-12-05T13:00:00.000Z', yearFirst],
  ['2021-12-05 13:00:00', yearFirst],
  ['2021/12/05 13:00', yearFirst],
  ['2021-12-05T1300', yearFirst],
  ['2021-12-05 13', yearFirst],
  ['2021-12-05T14:00+01:00', yearFirst],
  ['2021-12-05T08:00-05:00', yearFirst],
  ['2021-12-05 14:00 +0100', yearFirst],
  ['2021-12-05 13:00 UTC', yearFirst],
  ['05.12.2021 14:00 MEZ', dayFirst],
  ['2021-12-05 08:00:00 EST', yearFirst],
  ['2021-12-05 1:00 PM WET', yearFirst],
  ['2021-12-05 23:00 AEST', yearFirst],
  ['05.12.2021 13:00', dayFirst],
  ['05.12.2021 13h', dayFirst],
  ['05.12.2021 13 Uhr', dayFirst],
  ['5. Dec 2021 13:00', STAMP_STYLES.find(({ name }) => name === 'day-month name-year')!],
  ['Sun 05 Dec 2021 13:00', STAMP_STYLES.find(({ name }) => name === 'day-month name-year')!],
  ['2021-Dec-05 13:00', STAMP_STYLES.find(({ name }) => name === 'year-month name-day')!],
  ['5.12.2021 13:00', dayFirst],
  ['05/12/2021 13:00:00', dayFirst],
  ['05-12-2021 13:00', dayFirst],
  ['5. 12. 2021. 13:00', dayFirst],
  ['Sun, 05.12.2021 13:00', dayFirst],
  ['12/05/2021 13:00', monthFirst],
  ['2021120513', packed],
  ['202112051300', packed],
  ['20211205130000', packed],
  ['20211205:1300', packed],
  ['20211205 13:00', packed],
  ['20211205T130000Z', packed],
])('parseStamp reads %s', (text, style) => {
  expect(parseStamp(text, style, 0)).toBe(noon);
});

test('parseStamp takes the zone of the file away, unless the text states its own offset', () => {
  expect(parseStamp(' 2021-12-05 14:00 ', yearFirst, 3_600_000)).toBe(noon);
  expect(parseStamp('2021-12-05 13:00Z', yearFirst, 3_600_000)).toBe(noon);
});

test('parseStamp takes 24:00 as the 00:00 of the next day, over the end of a year too', () => {
  expect(parseStamp('2021-12-31 24:00', yearFirst, 0)).toBe(Date.UTC(2022, 0, 1));
  expect(parseStamp('2020022824', packed, 0)).toBe(Date.UTC(2020, 1, 29));
});

test.each([
  ['2021-02-29 00:00', yearFirst],
  ['1900-02-29 00:00', yearFirst],
  ['2021-04-31 00:00', yearFirst],
  ['2021-13-01 00:00', yearFirst],
  ['2021-00-01 00:00', yearFirst],
  ['2021-01-01 24:01', yearFirst],
  ['2021-01-01 25:00', yearFirst],
  ['2021-01-01 12:60', yearFirst],
  ['2021-01/01 12:00', yearFirst],
  ['2021-01-01 12:00 noon', yearFirst],
  ['2021.01.01.12:00', yearFirst],
  ['5. 12. 21', STAMP_STYLES.find(({ name }) => name === 'year of two digits-month-day')!],
  ['2021-01-01 12:00+99:00', yearFirst],
  ['21-01-01 12:00', yearFirst],
  ['', yearFirst],
  ['soon', packed],
  ['202101011', packed],
  ['31.02.2021 00:00', dayFirst],
])('parseStamp refuses %s', (text, style) => {
  expect(parseStamp(text, style, 0)).toBeNaN();
});

test('dateMs agrees with the calendar of the language for every day of 1601 to 2399', () => {
  for (let ms = Date.UTC(1601, 0, 1); ms < Date.UTC(2400, 0, 1); ms += 86_400_000) {
    const date = new Date(ms);
    const day = dateMs(date.getUTCFullYear(), date.getUTCMonth() + 1, date.getUTCDate());
    if (day !== ms) expect(day, date.toISOString()).toBe(ms);
  }
});

test('parseStamp brings back any second written in any style and any offset', () => {
  const two = (value: number) => String(value).padStart(2, '0');
  fc.assert(
    fc.property(
      fc.integer({ min: Date.UTC(1950, 0, 1) / 1000, max: Date.UTC(2099, 11, 31) / 1000 }),
      fc.integer({ min: -48, max: 56 }),
      (seconds, quarters) => {
        const offset_ms = quarters * 900_000;
        const wall = new Date(seconds * 1000 + offset_ms).toISOString();
        const [year, month, day] = wall.slice(0, 10).split('-');
        const clock = wall.slice(11, 19);
        const minutes = Math.abs(quarters) * 15;
        const offset = `${quarters < 0 ? '-' : '+'}${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
        expect(parseOffset(offset)).toBe(offset_ms);
        expect(parseStamp(`${wall.slice(0, 19)}${offset}`, yearFirst, 0)).toBe(seconds * 1000);
        expect(parseStamp(`${day}.${month}.${year} ${clock}`, dayFirst, offset_ms)).toBe(seconds * 1000);
        expect(parseStamp(`${month}/${day}/${year} ${clock}`, monthFirst, offset_ms)).toBe(seconds * 1000);
        expect(parseStamp(`${year}${month}${day}${clock.replaceAll(':', '')}`, packed, offset_ms)).toBe(
          seconds * 1000,
        );
      },
    ),
  );
});

test.each([
  ['UTC', 0],
  ['Z', 0],
  ['GMT', 0],
  ['+01:00', 60],
  ['UTC+1', 60],
  ['-0330', -210],
  ['+5:45', 345],
])('parseOffset reads %s', (text, minutes) => {
  expect(parseOffset(text)).toBe(minutes * 60_000);
});

test.each(['', 'Europe/Berlin', 'CET', '+25:00', '1'])('parseOffset refuses "%s"', (text) => {
  expect(parseOffset(text)).toBeNaN();
});

test.each([
  ['2021-12-05T13:00Z', 13, 0],
  ['Sun 2021-12-05 13:00+01:00', 13, 60],
  ['2021-12-05 1:00 PM UTC', 13, 0],
  ['2021-12-05', 0, Number.NaN],
])('stampReader tells the wall clock of %s and the offset it states', (text, hour, offset_min) => {
  const reader = stampReader([{ part: 'text', column: 3, style: 'year-month-day' }]);
  expect(reader.columns).toEqual([3]);
  expect(reader.read([text], 0)).toBe(Date.UTC(2021, 11, 5, hour));
  expect(reader.offset_ms()).toBe(offset_min * 60_000);
});

test('stampReader takes over the date of the row before only where it stands there again', () => {
  const { read } = stampReader([{ part: 'text', column: 0, style: 'year-month-day' }]);
  const hours = [
    '2021-12-3 23:00',
    '2021-12-3 24:00',
    '2021-12-31 00:00',
    '2021-12-3 1:30',
    '2021-12-3 25:00',
  ];
  expect(hours.map((text) => read([text], 0))).toEqual([
    Date.UTC(2021, 11, 3, 23),
    Date.UTC(2021, 11, 4),
    Date.UTC(2021, 11, 31),
    Date.UTC(2021, 11, 3, 1, 30),
    Number.NaN,
  ]);
});

test.each([
  ['5', 300],
  ['0530', 330],
  ['530', 330],
  ['5.30', 330],
  ['5h30', 330],
  ['05:30:30', 330.5],
  ['053030', 330.5],
  ['12:30 a.m.', 30],
  ['5:30 p', 1050],
  ['24:00', 1440],
  ['24:01', Number.NaN],
  ['13:00 PM', Number.NaN],
  ['noon', Number.NaN],
  ['', Number.NaN],
])('stampReader reads "%s" in a column of clock times', (text, minutes) => {
  const reader = stampReader([
    { part: 'text', column: 0, style: 'year-month-day' },
    { part: 'clock', column: 1 },
  ]);
  expect(reader.read(['2021-12-05', text], 0)).toBe(Date.UTC(2021, 11, 5) + minutes * 60_000);
  expect(reader.offset_ms()).toBeNaN();
  expect(reader.read(['2021-12-05', `${text}+01:00`], 0)).toBe(Date.UTC(2021, 11, 5) + minutes * 60_000);
  if (!Number.isNaN(minutes)) expect(reader.offset_ms()).toBe(3_600_000);
});

test('chooseStampStyle lets the days above 12 settle day and month', () => {
  expect(chooseStampStyle(['01/02/2021 00:00', '13/02/2021 00:00']).styles.map((s) => s.name)).toEqual([
    'day-month-year',
  ]);
  expect(chooseStampStyle(['01/02/2021 00:00', '02/13/2021 00:00']).styles.map((s) => s.name)).toEqual([
    'month-day-year',
  ]);
  expect(chooseStampStyle(['01/02/2021 00:00']).styles).toHaveLength(2);
  expect(chooseStampStyle(['nothing']).styles).toHaveLength(0);
});

test('parseStamp has its speed printed', () => {
  const begin = performance.now();
  let sum = 0;
  for (let i = 0; i < 300_000; i++) sum += parseStamp('2021-12-05 13:00:00', yearFirst, 0) / 1e12;
  const perSecond = 300_000 / ((performance.now() - begin) / 1000);
  console.log(`parseStamp: ${(perSecond / 1e6).toFixed(1)} million stamps a second`);
  expect(sum).toBeGreaterThan(0);
});

test.each([
  ['epoch s', '253402300799', '253402300800'],
  ['epoch ms', '253402300799999', '253402300800000'],
  ['serial day', '2958465.5', '2958466'],
] as const)('takes no %s that counts beyond the year 9999 for a time', (part, last, beyond) => {
  const reader = stampReader([{ part, column: 0 }]);
  expect(new Date(reader.read([last], 0)).getUTCFullYear()).toBe(9999);
  for (const text of [beyond, `-${beyond}`, '1e99']) expect(reader.read([text], 0)).toBeNaN();
});
