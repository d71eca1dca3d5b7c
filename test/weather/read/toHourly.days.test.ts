import { expect, test } from 'vitest';
import { HOUR_MS } from '../../../sim/common/time.ts';
import { bytesSource } from '../../../sim/tables/TableSource.ts';
import { importWeather } from '../../../sim/weather/importWeather.ts';
import { WEATHER_MARKS } from '../../../sim/weather/WeatherRecord.ts';
import { knownSeries } from '../recognise/knownSeries.ts';

/** A file of sums of days, those of a site's own days, and the sums that were written. */
function daily(latitude_deg: number, days: readonly number[], heading: string, first = '2023-08-23') {
  const lines = days.map((sum, d) => {
    const date = new Date(Date.parse(first) + d * 24 * HOUR_MS).toISOString().slice(0, 10);
    return `${date},${sum},${10 + 0.1 * (d % 7)}`;
  });
  const text = ['Days of UTC', `date,${heading},mean air temperature (degC)`, ...lines].join('\n');
  return importWeather([bytesSource({ name: 'days.csv', bytes: new TextEncoder().encode(text) })], {
    place: { latitude_deg, longitude_deg: 0, elevation_m: 0 },
  });
}

test('the hours of a day have the shares of the worked example, and their sum is the sum of the day', async () => {
  // Duffie and Beckman, example 2.13.2 (Madison, 43 degrees north, 23 August, 31.4 MJ/m2): 13 to 14 h solar, r_t 0.118, 3.7 MJ/m2.
  const { record } = await daily(
    43,
    Array.from({ length: 30 }, () => 31.4),
    'global radiation sum (MJ/m2)',
  );
  const day = Array.from(record!.ghi_W_m2.subarray(0, 24), (value) => value * 0.0036);
  expect(day.reduce((sum, value) => sum + value, 0)).toBeCloseTo(31.4, 9);
  // The solar clock is 2.6 minutes slow that day.
  expect(day[13]! / 31.4).toBeGreaterThan(0.1165);
  expect(day[13]! / 31.4).toBeLessThan(0.1185);
  expect(day[13]).toBeCloseTo(3.7, 1);
  expect(new Set(record!.mark)).toEqual(new Set([WEATHER_MARKS.indexOf('day-sum')]));
});

test('the mean of the air stays that of the day, and the record says what was done', async () => {
  const { record, report } = await daily(
    54,
    [400, 900, 1200, 300, 800, 1500, 700],
    'global radiation sum (J/cm2)',
  );
  const air = record!.air_degC.subarray(24, 48);
  expect(air.reduce((sum, value) => sum + value, 0) / 24).toBeCloseTo(10.1, 9);
  expect(Math.max(...air) - Math.min(...air)).toBeGreaterThan(2);
  expect(record!.origin.options.hours).toContain('each day keeping its light');
  expect(report.options.clock).toContain('the sun cannot prove them');
});

test('sums of days without a unit are read in the one under which clear days are clear', async () => {
  const known = knownSeries(Date.UTC(2025, 0, 1), 365);
  const sums = Array.from({ length: 365 }, (_, d) =>
    Number(
      (known.ghi_W_m2.subarray(d * 24, d * 24 + 24).reduce((sum, value) => sum + value, 0) * 0.0036).toFixed(
        2,
      ),
    ),
  );
  const { record, report } = await daily(54, sums, 'global radiation', '2025-01-01');
  expect(report.options.ghi).toContain('in MJ/m2');
  const [got, written] = [record!.ghi_W_m2, known.ghi_W_m2].map((values) =>
    values.reduce((a, b) => a + b, 0),
  );
  expect(got! / written!).toBeCloseTo(1, 3);
});
