import { afterAll, expect, it, vi } from 'vitest';
import { settleLamp } from '../../sim/lamp/params.ts';
import { lampSchema } from '../../sim/lamp/schema.ts';
import { RAW_CELL, RAW_DIODE, RAW_LED } from './makeLamp.ts';

const SOLVER = '../../sim/common/leastSquares.ts';

// Files of a thread share their modules: those with the counter are for this file alone.
afterAll(() => {
  vi.doUnmock(SOLVER);
  vi.resetModules();
});

it('readings are settled once, when the scenario is loaded, and by nobody later', async () => {
  let solves = 0;
  vi.resetModules();
  vi.doMock(SOLVER, async (importOriginal) => {
    const solver = await importOriginal<typeof import('../../sim/common/leastSquares.ts')>();
    const leastSquares: typeof solver.leastSquares = (...given) => {
      solves++;
      return solver.leastSquares(...given);
    };
    return { ...solver, leastSquares };
  });
  const { describeScenario, fitScenario, loadScenario, runAll } = await import('../../sim/index.ts');
  const { benchSheet } = await import('../../sim/trial/benchSheet.ts');
  const { spread } = await import('../../sim/trial/spread.ts');
  const scenario = loadScenario('scenarios/bench-readings.yaml');
  // Cell, diode, capacitor and driver, each once: nothing of it has to be solved again with more known.
  expect(solves).toBe(4);
  describeScenario(scenario);
  fitScenario(scenario);
  benchSheet(scenario.lamps[0]!);
  spread(runAll(scenario), { draws: 2 });
  expect(solves).toBe(4);
});

it('model parameters win over readings beside them, which are settled all the same', () => {
  const section = lampSchema.parse({
    cell: RAW_CELL,
    diode: { ...RAW_DIODE, readings: { forward: [{ current_mA: 10, drop_V: 0.3 }] } },
    capacitor: { raw: { capacitance_F: 100 }, rated_V: 2.7 },
    driver: { kind: 'power', power_mW: 10 },
    led: RAW_LED,
    schedule: { hours: 6 },
  });
  const { settled, params, fits } = settleLamp(section, ({ got }) => expect.fail(got))!;
  expect(settled.diode.raw).toEqual(section.diode.raw);
  expect(params.diode.saturation_A).toBe(RAW_DIODE.raw.saturation_A);
  expect(fits.diode!.keys.raw.saturation_A).not.toBeCloseTo(RAW_DIODE.raw.saturation_A, 6);
});
