import { DateTime } from 'luxon';
import { expect, test } from 'vitest';
import { knownSeries } from '../recognise/knownSeries.ts';
import { problemsOf, readText } from '../recognise/readText.ts';

const PLACE = { place: { latitude_deg: 54, longitude_deg: 10 } };
const HOUR = 3_600_000;
const known = knownSeries(Date.UTC(2024, 9, 20), 20);
const ZONE = 'Europe/Berlin';

/** Rows on a civil clock, in steps of so many minutes. */
function civilRows(start_ms: number, hours: number, step_min = 60): string[] {
  return Array.from({ length: (hours * 60) / step_min }, (_, i) => {
    const ms = start_ms + i * step_min * 60_000;
    const value = known.ghi_W_m2[Math.floor((ms - start_ms) / HOUR) % known.count]!;
    return `${DateTime.fromMillis(ms, { zone: ZONE }).toFormat('yyyy-MM-dd HH:mm')},${value},${5 + i / 1000}`;
  });
}
const file = (rows: readonly string[]): string =>
  `time (${ZONE}),GHI (W/m2),air (degC)\n${rows.join('\n')}\n`;

test.each([60, 30, 10, 1])(
  'an hour that the clock shows twice is read as two hours, in steps of %d minutes',
  async (step_min) => {
    const rows = civilRows(known.start_ms, known.count, step_min);
    const { series, hourly } = await readText([file(rows)], { ...PLACE, offset_min: -step_min / 2 });
    expect(hourly.start_ms).toBe(known.start_ms);
    expect(hourly.count).toBe(known.count);
    expect(series.files[0]!.rows).toBe(rows.length);
    for (let i = 0; i < known.count; i++) {
      expect(Math.abs(hourly.columns.ghi![i]! - known.ghi_W_m2[i]!)).toBeLessThan(
        1e-9 * (1 + known.ghi_W_m2[i]!),
      );
    }
  },
);

test('a clock that should go back and shows the hour once leaves a gap of an hour', async () => {
  const rows = civilRows(known.start_ms, known.count);
  const twice = rows.findIndex((row, i) => row.slice(0, 16) === rows[i - 1]?.slice(0, 16));
  rows.splice(twice, 1);
  const { series } = await readText([file(rows)], PLACE);
  expect(series.notes.join()).toContain('1 hours that the clock shows twice');
  const gaps = [...series.stamp_ms].filter((ms, i) => ms - series.stamp_ms[i - 1]! > HOUR);
  expect(gaps).toEqual([Date.UTC(2024, 9, 27, 2)]);
});

test('a time that the clock skips in spring is refused with its row', async () => {
  const start_ms = Date.UTC(2025, 2, 28);
  const rows = Array.from(
    { length: 96 },
    (_, i) => `${new Date(start_ms + i * HOUR).toISOString().slice(0, 16)},${known.ghi_W_m2[i]},5`,
  );
  const problems = await problemsOf(readText([file(rows)], PLACE));
  expect(problems[0]).toMatchObject({ code: 'WEATHER_STAMP_UNREADABLE', line: 52 });
  expect(problems[0]!.got).toContain('skips');
});

test('a clock with daylight saving that is not said to be one is refused with its rows, and read when it is', async () => {
  const rows = civilRows(known.start_ms, known.count);
  const text = `time,GHI (W/m2),air (degC)\n${rows.join('\n')}\n`;
  const problems = await problemsOf(readText([text], PLACE));
  expect(problems[0]!.code).toBe('WEATHER_DUPLICATE');
  expect(problems[0]!.fix).toContain('--zone Europe/Berlin');
  // What mends them all is said once.
  const fine = `time,GHI (W/m2),air (degC)\n${civilRows(known.start_ms, known.count, 10).join('\n')}\n`;
  const six = await problemsOf(readText([fine], PLACE));
  expect(six.map(({ fix }) => fix!.includes('--zone'))).toEqual([true, false, false, false, false, false]);
  const { hourly } = await readText([text], { ...PLACE, zone: ZONE, offset_min: -30 });
  expect(hourly.start_ms).toBe(known.start_ms);
});
