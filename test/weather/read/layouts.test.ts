import { DateTime } from 'luxon';
import { expect, test } from 'vitest';
import { HOUR_MS as HOUR } from '../../../sim/common/time.ts';
import { bytesSource } from '../../../sim/tables/TableSource.ts';
import { importWeather } from '../../../sim/weather/importWeather.ts';
import type { ImportOptions } from '../../../sim/weather/readWithClock.ts';
import { known, off, PLACE } from '../knownYear.ts';
import { problemsOf } from '../recognise/readText.ts';

const DAY_START = Date.UTC(2025, 0, 1);
const two = (value: number): string => String(value).padStart(2, '0');
const dotted = (date: Date, joint = '.'): string =>
  `${date.getUTCFullYear()}${joint}${two(date.getUTCMonth() + 1)}${joint}${two(date.getUTCDate())}.`;
const dayOfYear = (date: Date): number => Math.floor((date.getTime() - DAY_START) / (24 * HOUR)) + 1;
const iso = (date: Date): string => date.toISOString().slice(0, 16);
/** Thousands parted by a mark; decimals behind another. */
const parted = (value: number, mark: string, decimals = 0, point = '.'): string => {
  const [whole, part] = value.toFixed(decimals).split('.');
  return whole!.replace(/\B(?=(?:\d{3})+$)/g, mark) + (part === undefined ? '' : point + part);
};
const light = (i: number, decimals = 1): string => known.ghi_W_m2[i]!.toFixed(decimals);
const air = (i: number): string => known.air_degC[i]!.toFixed(1);
/** Light since midnight, Wh/m2. */
const sums = new Float64Array(known.count);
for (let i = 0; i < known.count; i++) sums[i] = (i % 24 === 0 ? 0 : sums[i - 1]!) + known.ghi_W_m2[i]!;

/** Light since a logger was mounted, Wh/m2; and since it was set back in July, of which it had counted three million before. */
const counted = new Float64Array(known.count);
const setBack = new Float64Array(known.count);
for (let i = 0; i < known.count; i++) {
  counted[i] = (i === 0 ? 712_345 : counted[i - 1]!) + known.ghi_W_m2[i]!;
  setBack[i] = (i === 0 ? 3_012_345 : i === 4500 ? 0 : setBack[i - 1]!) + known.ghi_W_m2[i]!;
}

/** The known year under a heading, each row made of its place and the start of its hour. */
const fileOf = (heading: string, row: (i: number, date: Date) => string): string =>
  [
    ...(heading === '' ? [] : [heading]),
    ...Array.from({ length: known.count }, (_, i) => row(i, new Date(known.start_ms + i * HOUR))),
  ].join('\n');
const read = (text: string, options: ImportOptions = {}) =>
  importWeather([bytesSource({ name: 'made-up.csv', bytes: new TextEncoder().encode(`${text}\n`) })], {
    ...PLACE,
    ...options,
  });
const HEADING = 'time UTC (start);ghi W/m2;air degC';
const KILOJOULES = 'time UTC (start);ghi kJ/m2;air degC';
const MIDDLE = { zone: 'UTC', label: 'middle' } as const;

test.each<[what: string, text: string, options?: ImportOptions]>([
  [
    'a point behind the day',
    fileOf(HEADING, (i, d) => `${dotted(d)} ${two(d.getUTCHours())}:00;${light(i)};${air(i)}`),
  ],
  [
    'points and blanks in the date',
    fileOf(HEADING, (i, d) => `${dotted(d, '. ')} ${two(d.getUTCHours())}:00:00;${light(i)};${air(i)}`),
  ],
  [
    'a date with points beside its clock',
    fileOf(
      'date;UTC (start);ghi W/m2;air degC',
      (i, d) => `${dotted(d)};${two(d.getUTCHours())}:00;${light(i)};${air(i)}`,
    ),
  ],
  [
    'day of the year and decimal hour',
    fileOf(
      'yyyy;ddd;hour of the day;ghi W/m2;air degC',
      (i, d) => `2025;${dayOfYear(d)};${(d.getUTCHours() + 0.5).toFixed(2)};${light(i)};${air(i)}`,
    ),
    MIDDLE,
  ],
  [
    'day of the year and decimal hour under no heading',
    fileOf('', (i, d) => `2025 ${dayOfYear(d)} ${(d.getUTCHours() + 0.5).toFixed(2)} ${light(i)} ${air(i)}`),
    MIDDLE,
  ],
  [
    'thousands parted by commas',
    fileOf(KILOJOULES, (i, d) => `${iso(d)};${parted(3.6 * known.ghi_W_m2[i]!, ',')};${air(i)}`),
  ],
  [
    'thousands parted by commas, decimals',
    fileOf(
      KILOJOULES.replaceAll(';', ','),
      (i, d) => `${iso(d)},"${parted(3.6 * known.ghi_W_m2[i]!, ',', 1)}",${air(i)}`,
    ),
  ],
  [
    'thousands parted by points',
    fileOf(
      KILOJOULES,
      (i, d) => `${iso(d)};${parted(3.6 * known.ghi_W_m2[i]!, '.', 1, ',')};${air(i).replace('.', ',')}`,
    ),
  ],
  [
    'thousands parted by blanks',
    fileOf(
      KILOJOULES,
      (i, d) => `${iso(d)};${parted(3.6 * known.ghi_W_m2[i]!, '\u00a0', 1, ',')};${air(i).replace('.', ',')}`,
    ),
  ],
  [
    'thousands parted by apostrophes',
    fileOf(
      'time UTC (start);ghi J/m2;air degC',
      (i, d) => `${iso(d)};${parted(3600 * known.ghi_W_m2[i]!, "'")};${air(i)}`,
    ),
  ],
  [
    'sums that run through the day',
    fileOf(
      'time UTC (end);ghi Wh/m2;air degC',
      (i, d) => `${iso(new Date(d.getTime() + HOUR))};${sums[i]!.toFixed(1)};${air(i)}`,
    ),
  ],
  [
    'a counter that is never set back',
    fileOf(
      'time UTC (end);light in all kWh/m2;air degC',
      (i, d) => `${iso(new Date(d.getTime() + HOUR))};${(counted[i]! / 1000).toFixed(4)};${air(i)}`,
    ),
  ],
  [
    'a counter of millions that is set back once',
    fileOf(
      'time UTC (end);ghi Wh/m2;air degC',
      (i, d) => `${iso(new Date(d.getTime() + HOUR))};${setBack[i]!.toFixed(1)};${air(i)}`,
    ),
  ],
  [
    'rows in quotes as a whole, quotes inside',
    fileOf('"time UTC (start),""ghi W/m2"",air degC"', (i, d) => `"${iso(d)},""${light(i)}"",${air(i)}"`),
  ],
])('a year with %s is read', async (_, text, options) => {
  const { record } = await read(text, options);
  expect(record).toMatchObject({ start_ms: known.start_ms, count: 8760 });
  expect(off(record!.ghi_W_m2)).toBeLessThan(0.2);
});

/** The known year by the clock of a zone, the hour that comes twice written once. */
const local = (zone: string): string => {
  const seen = new Set<string>();
  return fileOf('local time (start);ghi W/m2;air degC', (i, date) => {
    const stamp = DateTime.fromJSDate(date, { zone }).toFormat('yyyy-MM-dd HH:mm');
    const first = !seen.has(stamp);
    seen.add(stamp);
    return first ? `${stamp};${light(i)};${air(i)}` : '';
  });
};

test('local time that has the doubled hour once is read, and the other hour filled and marked', async () => {
  const { record, report } = await read(local('Europe/Berlin'), { zone: 'Europe/Berlin' });
  expect(off(record!.ghi_W_m2)).toBeLessThan(0.1);
  expect(record!.origin.filledHours).toBe(1);
  expect(report.notes.join()).toContain('the clock shows twice');
});

test('a time that the clock skips is left out where it has no values, else refused', async () => {
  const rows = local('Europe/Berlin').split('\n');
  const at = rows.findIndex((row) => row.startsWith('2025-03-30 01:00'));
  const added = (values: string) => rows.toSpliced(at + 1, 0, `2025-03-30 02:00;${values}`).join('\n');
  const { record } = await read(added(';'), { zone: 'Europe/Berlin' });
  expect(off(record!.ghi_W_m2)).toBeLessThan(0.1);
  const [problem] = await problemsOf(read(added('3.5;99'), { zone: 'Europe/Berlin' }));
  expect(problem!.code).toBe('WEATHER_STAMP_UNREADABLE');
});
