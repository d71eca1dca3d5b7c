import { afterAll, expect, it, vi } from 'vitest';

const SOLVER = '../../sim/common/leastValues.ts';

// Files of a thread share their modules: those with the counter are for this file alone.
afterAll(() => {
  vi.doUnmock(SOLVER);
  vi.resetModules();
});

it('readings are settled once, when the scenario is loaded, and by nobody later', async () => {
  let solves = 0;
  vi.resetModules();
  vi.doMock(SOLVER, async (importOriginal) => {
    const solver = await importOriginal<typeof import('../../sim/common/leastValues.ts')>();
    const leastValues: typeof solver.leastValues = (...given) => {
      solves++;
      return solver.leastValues(...given);
    };
    return { ...solver, leastValues };
  });
  const { describeScenario, fitScenario, loadScenario, runAll } = await import('../../sim/index.ts');
  const { benchSheet } = await import('../../sim/trial/benchSheet.ts');
  const { spreader } = await import('../../sim/trial/spread.ts');
  const scenario = loadScenario('scenarios/bench-readings.yaml');
  // Cell, diode, capacitor and driver, each once: nothing of it has to be solved again with more known.
  expect(solves).toBe(4);
  describeScenario(scenario);
  fitScenario(scenario);
  benchSheet(scenario.lamps[0]!, scenario.spots);
  (await runAll(scenario)).trials.forEach(spreader(scenario, 2));
  expect(solves).toBe(4);
});
