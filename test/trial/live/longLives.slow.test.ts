import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { loadScenario } from '../../../sim/scenario/loadScenario.ts';
import { liveRunOf } from '../../../sim/trial/live/liveRunOf.ts';
import { loadWeather } from '../../../sim/trial/loadWeather.ts';
import { runAll } from '../../../sim/trial/runAll.ts';
import { besideIt, carried, holdsBeside } from './besideIt.ts';

const WINTERS = 'scenarios/invented-winters.yaml';

describe('a record of several years', () => {
  it('is carried where it is three of them', async () => {
    const three = { from_ms: Date.UTC(2013, 6, 1), to_ms: Date.UTC(2016, 6, 1) };
    const run = await carried(WINTERS, three);
    expect(run.live.trial('lawn', 'single')).toHaveProperty('statistics.winters.length', 4);
    await holdsBeside(
      run,
      'north-side',
      'single',
      [
        { of: 'lamp', key: 'capacitor.capacitance_F', value: 560 },
        { of: 'spot', key: 'shading.factor', value: 0.9 },
      ],
      { withChanges: true },
    );
  });

  it('is refused in words where it is longer', async () => {
    const scenario = loadScenario(WINTERS);
    const weather = await loadWeather(scenario);
    expect(liveRunOf(await runAll(scenario, { weather, withChanges: false }))).toEqual({
      tooLong: expect.stringMatching(
        /^a record of 12 years, and no more than 3 go into a page: .*--from, --to/,
      ),
    });
  });
});

describe('a record of one of several stations', () => {
  it('is carried without the others', async () => {
    const garden = readFileSync('scenarios/invented-garden.yaml', 'utf8');
    const own = garden.replace(
      /weather:[\s\S]*?start: cyclic/,
      'weather: { file: ../data-samples/invented-two-stations.csv }',
    );
    const two = await carried(besideIt(own), { station: 'Upper Mill' });
    await holdsBeside(two, 'lawn', 'single', [{ of: 'lamp', key: 'cell.parallel', value: 2 }]);
  });
});
