import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { winterFrame } from '../../sim/climate/madeWinters.ts';
import { meansClimate } from '../../sim/climate/meansClimate.ts';
import { loadScenario } from '../../sim/scenario/loadScenario.ts';
import { writeNormalForm } from '../../sim/weather/normalForm.ts';
import { recordOfWinters, THAMES, THAMES_CLIMATE } from '../climate/monthsOnly.ts';
import { type WeatherGarden, weatherGarden } from './weatherGarden.ts';

let garden: WeatherGarden;
beforeAll(() => {
  garden = weatherGarden();
  const frame = winterFrame(THAMES);
  const record = recordOfWinters(meansClimate(THAMES_CLIMATE, frame, 'bendt'), frame, 6);
  writeFileSync(join(garden.folder, 'six.csv'), writeNormalForm(record, THAMES));
});
afterAll(() => garden.remove());

it('longnight climate learns from six winters, says how well, and writes what a scenario reads', async () => {
  const { code, stdout, stderr } = await garden.run('climate', 'six.csv', '--write', 'climate.yaml');
  expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
  expect(stdout).toMatch(/Learned from six\.csv \(SHA-256 [0-9a-f]{12}\.\.\.\), [56] winters, 200\d/);
  expect(stdout).toMatch(/^mean of a winter .* percent of \d+$/m);
  expect(stdout).toMatch(/^least ten days running .* percent of \d+$/m);
  expect(stdout.split('\n').filter((line) => line.length > 100)).toEqual([]);
  const scenario = readFileSync('scenarios/invented-climate.yaml', 'utf8')
    .replace('../data-samples/invented-climate.yaml', 'climate.yaml')
    .replace('../data-samples/house.csv', join(process.cwd(), 'data-samples/house.csv'));
  writeFileSync(join(garden.folder, 'learned.yaml'), scenario);
  const { climate } = loadScenario(join(garden.folder, 'learned.yaml'));
  expect(climate?.file).toBe('climate.yaml');
  expect(climate?.section.clearness_shares?.months).toHaveLength(12);
  const json = await garden.run('climate', 'six.csv', '--json');
  expect(JSON.parse(json.stdout)).toMatchObject({
    schema: 1,
    held_out: {
      splits: 8,
      figures: [{ what: 'mean', recorded_kWh_m2_day: { mean: expect.any(Number) } }, {}],
    },
    section: { learned_winters: climate!.section.learned_winters },
  });
  const over = await garden.run('climate', 'six.csv', '--write', 'six.csv');
  expect(over.code).toBe(2);
}, 60_000);
