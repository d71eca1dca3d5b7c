import { beforeAll, describe, expect, it } from 'vitest';
import type { Scenario } from '../../../sim/scenario/Scenario.ts';
import { sizeByWinters } from '../../../sim/sizing/winters/sizeByWinters.ts';
import { besideGrid, choosing, climateOf, type Judged, wholeGrid } from './madeGrid.ts';

const CHOICES = '{ cell: { parallel: [1, 2] }, capacitor: { capacitance_F: [150, 330, 470, 680] } }';

describe('the cheapest lamp by made winters, beside the odds of every design', () => {
  let scenario: Scenario;
  let all: Judged[];
  beforeAll(() => {
    scenario = choosing(CHOICES);
    all = wholeGrid(scenario, climateOf(scenario), 10);
  });

  it.each([0.3, 0.75])('is the one whose lower end reaches %d, by both distributions', async (share) => {
    const lows = all.map(({ odds }) => odds.keeps.low);
    // The case tells: some reach no share, some do, and their chances differ.
    expect(Math.min(...lows)).toBeLessThan(0.05);
    expect(Math.max(...lows)).toBeGreaterThan(0.7);
    expect(new Set(lows).size).toBeGreaterThan(3);
    await besideGrid(scenario, climateOf(scenario), all, share);
  });

  it('runs a part of the winters only, and says what it did with every design', async () => {
    const { cheapest, designs, runs } = await besideGrid(scenario, climateOf(scenario), all, 0.6);
    expect(designs.withoutRun).toBeGreaterThan(0);
    expect(designs.whole).toBeLessThan(designs.all);
    expect(runs).toBeGreaterThan(0);
    expect(cheapest!.failed).toBeLessThanOrEqual(cheapest!.mayFail);
    expect(cheapest!.withPoorParts!.keeps.low).toBeLessThanOrEqual(cheapest!.odds.keeps.low);
  });
});

it('says what comes nearest where none does, and nothing where none keeps a single winter', async () => {
  const some = choosing('{ capacitor: { capacitance_F: [150, 200, 250] } }', 'bendt');
  const basis = climateOf(some);
  const grid = wholeGrid(some, basis, 10);
  const { nearest } = await besideGrid(some, basis, grid, 0.75);
  expect(nearest!.mayFail).toBeLessThan(nearest!.failed);
  const small = choosing('{ capacitor: { capacitance_F: [10, 22] } }', 'bendt');
  const none = await besideGrid(small, climateOf(small), wholeGrid(small, climateOf(small), 10), 0.75);
  expect([none.cheapest, none.nearest]).toEqual([undefined, undefined]);
});

it('gives what is there so far where it is stopped', async () => {
  const scenario = choosing(CHOICES);
  const controller = new AbortController();
  const { answers } = await sizeByWinters(
    scenario,
    climateOf(scenario),
    { winters: 10, mustKeep: 0.6 },
    {
      threads: 0,
      signal: controller.signal,
      onProgress: () => controller.abort(),
    },
  );
  const [{ partial, cheapest, nearest }] = answers as [(typeof answers)[0]];
  expect([cheapest, nearest]).toEqual([undefined, undefined]);
  expect(partial).toMatchObject({ all: 8 });
  expect(partial!.settled).toBeGreaterThan(0);
  expect(partial!.settled).toBeLessThan(8);
  expect(partial!.open!.looked).toBeGreaterThan(0);
});

it('names the parts that have no price', async () => {
  const scenario = choosing('{ capacitor: { capacitance_F: [150, 200] } }', 'bendt', [
    ['led: { part: white-led }', 'led: { raw: { forward_V: 3, efficacy_lm_W: 100 } }'],
  ]);
  const wishes = { winters: 10, mustKeep: 0.5 };
  const refused = sizeByWinters(scenario, climateOf(scenario), wishes, { threads: 0 });
  await expect(refused).rejects.toThrow(/no price of LED/);
});
