import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { SAMPLES, type WeatherGarden, weatherGarden } from './weatherGarden.ts';

let garden: WeatherGarden;
beforeAll(() => {
  garden = weatherGarden();
});
afterAll(() => garden.remove());

it('longnight climate refuses a record of fewer than five winters, and says how many it holds', async () => {
  const { code, stdout, stderr } = await garden.run(
    'climate',
    join(SAMPLES, 'invented-year.csv'),
    '--place',
    '54,10,20',
  );
  expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
  expect(stderr).toContain('WEATHER_PARTIAL_YEAR');
  expect(stderr).toContain('expected 5 or more, to learn from them');
  expect(stderr).toMatch(/got (no winter|\d+ winters?) whose dark half is on record/);
});
