import { describe, expect, it } from 'vitest';
import { sizeByWinters } from '../../../sim/sizing/winters/sizeByWinters.ts';
import { inventedRecord } from '../../climate/inventedRecord.ts';
import { spaceOf } from '../wholeGrid.ts';
import { besideGrid, choosing, climateOf, wholeGrid } from './madeGrid.ts';

const CHOICES = {
  changes: [] as [string, string][],
  choices:
    '{ cell: { parallel: [1, 2] }, capacitor: { capacitance_F: [150, 250, 330, 470] }, driver: { inductance_uH: [470, 1000] } }',
};

/** A scenario of several invented winters, and what winters are made from. */
function ofRecord(seed: number) {
  const { scenario } = spaceOf(CHOICES);
  const { site } = scenario;
  return { scenario, basis: { site, seed, record: inventedRecord(6, seed) } };
}

describe('the cheapest lamp by made winters of a record', () => {
  it.each([3, 4])(
    'is that of the odds of every design, climates learned again among them: seed %d',
    async (seed) => {
      const { scenario, basis } = ofRecord(seed);
      const all = wholeGrid(scenario, basis, 20);
      for (const share of [0.3, 0.5, 0.7, 0.83]) await besideGrid(scenario, basis, all, share);
    },
  );

  it('is the same in this thread, in one other and in two', async () => {
    const { scenario, basis } = ofRecord(5);
    const wishes = { winters: 20, mustKeep: 0.6 };
    const [here, one, two] = await Promise.all(
      [0, 1, 2].map((threads) => sizeByWinters(scenario, basis, wishes, { threads })),
    );
    const told = ({ answers }: typeof here & object) =>
      answers.map(({ cheapest, designs, runs }) => ({
        designs,
        runs,
        cheapest: cheapest?.design.index,
        keeps: cheapest?.odds.keeps,
      }));
    expect(told(one!)).toEqual(told(here!));
    expect(told(two!)).toEqual(told(here!));
  });
});

it('is that of the odds of every design by two distributions, of spots and schedules too', async () => {
  const scenario = choosing(
    '{ stand: { cell_tilt_deg: [10, 60] }, capacitor: { capacitance_F: [150, 330, 470, 680] }, driver: { inductance_uH: [470, 680] } }',
  );
  const all = wholeGrid(scenario, climateOf(scenario), 24);
  for (const share of [0.1, 0.3, 0.5, 0.7, 0.78]) await besideGrid(scenario, climateOf(scenario), all, share);
});
