import { expect, it } from 'vitest';
import { knownSeries } from './knownSeries.ts';
import { problemsOf, readText } from './readText.ts';

// A first column that numbers the rows is no time, whatever stands beside it.

const known = knownSeries(Date.UTC(2025, 1, 20), 40);
const PLACE = { place: { latitude_deg: 54, longitude_deg: 10 }, offset_min: -30 };

function table(heading: string, row: (time: Date) => string): string {
  const rows = Array.from(known.ghi_W_m2, (ghi, i) => {
    return `${i + 1};${row(new Date(known.start_ms + i * 3_600_000))};${ghi.toFixed(1)};${known.air_degC[i]!.toFixed(1)}`;
  });
  return [heading, ...rows].join('\n');
}

const MONTHS = ['January', 'February', 'March'];

it.each([
  [
    'long dates and an hour',
    table(
      'No;Day;Hour;GHI W/m2;T degC',
      (at) => `${MONTHS[at.getUTCMonth()]} ${at.getUTCDate()} ${at.getUTCFullYear()};${at.getUTCHours()}`,
    ),
  ],
  [
    'dates with the name of the month, hours with their word',
    table(
      '#;Tag;Uhr;Glob. Str. W/m2;Lufttemp. degC',
      (at) => `${at.getUTCDate()}. ${MONTHS[at.getUTCMonth()]!.slice(0, 3)} 2025;${at.getUTCHours()} Uhr`,
    ),
  ],
  ['stamps', table('#;time utc;GHI W/m2;T degC', (at) => at.toISOString().slice(0, 16).replace('T', ' '))],
])('goes by the dates beside it: %s', async (_, text) => {
  const { hourly } = await readText([text], PLACE);
  const at = (known.start_ms - hourly.start_ms) / 3_600_000;
  expect(at).toBe(0);
  known.ghi_W_m2.forEach((value, i) => {
    expect(Math.abs(hourly.columns.ghi![i]! - value)).toBeLessThan(0.06);
  });
});

it('is not taken for hours of the year beside dates that no style reads', async () => {
  const text = table('No;Day;Hour;GHI W/m2;T degC', (at) => {
    return `Mon ${at.getUTCDate()} ${MONTHS[at.getUTCMonth()]!.slice(0, 3)};${at.getUTCHours()}h`;
  });
  const [problem] = await problemsOf(readText([text], PLACE));
  expect(problem!.code).toBe('WEATHER_STAMP_UNREADABLE');
});

it('still is hours of the year where it says so, or stands alone', async () => {
  const year = knownSeries(Date.UTC(2025, 0, 1), 365);
  const rows = Array.from(
    year.ghi_W_m2,
    (ghi, i) => `${i + 1};${ghi.toFixed(1)};${year.air_degC[i]!.toFixed(1)}`,
  );
  for (const heading of ['hour of year;GHI W/m2;T degC', 'n;GHI W/m2;T degC']) {
    const { recognition } = await readText([[heading, ...rows].join('\n')], PLACE);
    expect(recognition.stamp.parts).toMatchObject([{ part: 'hour of year', column: 0 }]);
  }
});
