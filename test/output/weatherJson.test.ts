import { expect, test } from 'vitest';
import { program } from '../../sim/output/program.ts';
import { weatherJson } from '../../sim/output/weatherJson.ts';
import { smallWeather, without } from './smallWeather.ts';

test('weatherJson holds what was understood under keys in a fixed order, numbers or null, the same bytes each time', async () => {
  const { report } = await smallWeather();
  const text = weatherJson(report, program());
  expect(text).toBe(weatherJson((await smallWeather()).report, program()));
  expect(text).not.toMatch(/NaN|Infinity|undefined/);
  const value = JSON.parse(text);
  expect(Object.keys(value)).toEqual([
    'schema',
    'longnight',
    'node_major',
    'files',
    'site',
    'options',
    'doubts',
    'clock',
    'first_utc',
    'hours',
    'missing',
    'findings',
    'notes',
    'gaps',
    'stretch',
    'months',
    'years',
    'pictures',
  ]);
  expect(value).toMatchObject({
    schema: 1,
    first_utc: '2025-01-01T00:00:00Z',
    hours: 8760,
    files: [{ name: 'made-up.csv', rows: 8760 }],
    clock: {
      offset_min: -30,
      stretches: [],
      sun: { pattern: 'one clock', verdict: 'decided', place: 'fits' },
    },
    findings: [],
    stretch: { first_utc: '2025-01-01T00:00:00Z', years: 1, filled_h: 0 },
  });
  expect(value.clock.explained_by[0]).toMatchObject({ marks: 'start', clock_ahead_min: 0 });
  expect(value.months).toHaveLength(12);
});

test('weatherJson holds the picture of each year: as many rows and columns as it says, shares from 0 to 1', async () => {
  const { report } = await smallWeather(without(151 * 24, 48));
  const { pictures } = JSON.parse(weatherJson(report, program()));
  expect(pictures).toHaveLength(1);
  const [{ column_days, row_hours, ghi_W_m2, filled_share, missing_share }] = pictures;
  for (const cells of [ghi_W_m2, filled_share, missing_share]) {
    expect(cells).toHaveLength(24 / row_hours);
    for (const row of cells) expect(row).toHaveLength(Math.ceil(365 / column_days));
  }
  const shares = [...filled_share, ...missing_share].flat() as number[];
  expect(Math.min(...shares)).toBe(0);
  expect(Math.max(...filled_share.flat())).toBeGreaterThan(0.3);
  expect(Math.max(...shares)).toBeLessThanOrEqual(1);
});

test('weatherJson tells gaps by month, and no stretch where months of which much is filled are to be accepted', async () => {
  const { report } = await smallWeather(without(151 * 24, 120));
  const value = JSON.parse(weatherJson(report, program()));
  expect(value.stretch ?? null).toBeNull();
  expect(value.gaps.from_whole_days_h).toBeGreaterThan(60);
  const june = value.gaps.months.find(({ month }: { month: string }) => month === '2025-06');
  expect(june).toMatchObject({ state: 'much filled', absent_daylight_h: 0 });
  expect(june.filled_daylight_h).toBe(value.gaps.from_whole_days_h);
});
