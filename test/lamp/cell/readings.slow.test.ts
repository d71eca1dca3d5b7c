import { expect, it } from 'vitest';
import { randomStream } from '../../../sim/common/random.ts';
import { cellFromReadings } from '../../../sim/lamp/cell/readings.ts';
import type { SingleDiode } from '../../../sim/lamp/cell/SingleDiode.ts';
import { cellReadings, type Light } from './invented.ts';

const TRUTH: SingleDiode = {
  photocurrent_A: 0.5,
  saturation_A: 2e-8,
  ideality: 1.4,
  series_ohm: 0.15,
  shunt_ohm: 400,
};

const LIGHTS: readonly Light[] = [
  { light: 1000, cell_degC: 42, burden_ohm: 0.05, current_step_mA: 1, loads: [3, 4, 5, 8] },
  { light: 300, cell_degC: 33, burden_ohm: 0.05, current_step_mA: 1, loads: [] },
  { light: 100, cell_degC: 27, burden_ohm: 1, current_step_mA: 0.1, loads: [40] },
  { light: 30, cell_degC: 22, burden_ohm: 1, current_step_mA: 0.1, loads: [] },
  { light: 10, cell_degC: 21, burden_ohm: 1, current_step_mA: 0.1, loads: [] },
];

const REPEATS = 400;

/** How often the stated 90 percent interval holds the truth, by parameter, over seeds 1 to 400. */
function hits(truth: SingleDiode, lights: readonly Light[]) {
  const held: Record<string, number> = {};
  let oneSided = 0;
  for (let seed = 1; seed <= REPEATS; seed++) {
    const section = cellReadings(truth, lights, randomStream(seed, 'readings of a cell'));
    const fit = cellFromReadings(section, section.readings!, (problem) => {
      throw new Error(`seed ${seed}: ${JSON.stringify(problem)}`);
    })!;
    for (const { key, low, high } of fit.estimates) {
      const value = truth[key as keyof SingleDiode];
      held[key] = (held[key] ?? 0) + (value >= low && value <= high ? 1 : 0);
      if (key === 'shunt_ohm' && high === Number.POSITIVE_INFINITY) oneSided++;
    }
  }
  return { held, oneSided };
}

it('the 90 percent intervals hold the true parameters in 344 to 376 of 400 repeats with realistic meter errors', {
  timeout: 60_000,
}, () => {
  const { held } = hits(TRUTH, LIGHTS);
  // 360 expected; the binomial spread is 6, the band 2.7 of these.
  for (const key of ['photocurrent_A', 'saturation_A', 'ideality', 'series_ohm', 'shunt_ohm']) {
    expect(held[key], key).toBeGreaterThanOrEqual(344);
    expect(held[key], key).toBeLessThanOrEqual(376);
  }
});

it('a shunt too good for the readings gets a lower bound, which holds in at least 344 of 400 repeats', {
  timeout: 60_000,
}, () => {
  const { held, oneSided } = hits({ ...TRUTH, shunt_ohm: 40_000 }, LIGHTS.slice(0, 3));
  expect(oneSided).toBeGreaterThan(0.8 * REPEATS);
  expect(held.shunt_ohm).toBeGreaterThanOrEqual(344);
});
