import { gzipSync } from 'node:zlib';
import { expect, it } from 'vitest';
import { importWeather } from '../../../sim/weather/importWeather.ts';
import { knownSeries } from './knownSeries.ts';
import { problemsOf, readText } from './readText.ts';

const known = knownSeries(Date.UTC(2025, 2, 1), 40);
const times = Array.from(known.ghi_W_m2, (_, i) => new Date(known.start_ms + i * 3_600_000).toISOString());
const tenths = (values: Float64Array) => Array.from(values, (value) => Math.round(value * 10) / 10 || 0);
const light = tenths(known.ghi_W_m2);
const air = tenths(known.air_degC);
const PLACE = { place: { latitude_deg: 54, longitude_deg: 10 }, offset_min: -30 };

/** Invented answers of invented services. */
const ANSWERS: [shape: string, value: unknown][] = [
  ['records', { rows: times.map((when, i) => ({ when, irradiance: light[i], airTemperature: air[i] })) }],
  [
    'lists beside each other, legends apart',
    {
      marks: { glow: 'global horizontal irradiance in W/m2', warmth: 'air temperature in °C' },
      by_hour: { when: times.map((time) => time.slice(0, 16)), glow: light, warmth: air },
      by_day: { when: ['2025-03-01', '2025-03-02'], glow: [1200, 800] },
    },
  ],
  [
    'a list for each quantity',
    [
      { name: 'global irradiance', points: times.map((time, i) => [light[i], Date.parse(time)]) },
      { name: 'air temperature', points: times.map((time, i) => [air[i], Date.parse(time)]) },
    ],
  ],
  [
    'values by their times',
    {
      solar_radiation: Object.fromEntries(
        times.map((time, i) => [time.slice(0, 13).replace(/\D/g, ''), light[i]]),
      ),
      air_temperature: Object.fromEntries(
        times.map((time, i) => [time.slice(0, 13).replace(/\D/g, ''), air[i]]),
      ),
    },
  ],
];

it.each(ANSWERS)('reads JSON as it reads a table: %s', async (_, value) => {
  const pretty = JSON.stringify(value, null, 2);
  for (const file of [
    JSON.stringify(value),
    pretty,
    gzipSync(pretty),
    Buffer.from(`\ufeff${pretty}`, 'utf16le'),
  ]) {
    const { recognition, series } = await readText([file], PLACE);
    expect(recognition.json).toBe(true);
    expect(recognition.columns.map(({ quantity, unit }) => `${quantity} ${unit}`)).toEqual([
      'ghi W/m2',
      'air_temperature degC',
    ]);
    expect([...series.stamp_ms]).toEqual(times.map((time) => Date.parse(time)));
    expect([...series.columns.ghi!]).toEqual(light);
    expect([...series.columns.air_temperature!]).toEqual(air);
  }
});

it('names two stations by what they are called, and the table where a line is meant', async () => {
  const rows = (part: number) => times.map((time, i) => ({ time, ghi: light[i]! * part }));
  const [which] = await problemsOf(
    readText(
      [
        JSON.stringify([
          { name: 'Hill', list: rows(1) },
          { name: 'Vale', list: rows(0.8) },
        ]),
      ],
      PLACE,
    ),
  );
  expect(which).toMatchObject({
    code: 'WEATHER_AMBIGUOUS',
    got: expect.stringContaining('"Hill.ghi" and "Vale.ghi"'),
  });
  const twice = [...rows(1), { time: times[5], ghi: 3 }];
  const name = 'answer.json';
  const bytes = new TextEncoder().encode(JSON.stringify(twice));
  const [again] = await problemsOf(importWeather([{ name, bytes }], PLACE));
  expect(again).toMatchObject({ code: 'WEATHER_DISORDER', file: 'answer.json, its table', line: 962 });
});
