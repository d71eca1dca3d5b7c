import { expect, it } from 'vitest';
import { smallSizing } from './smallSizing.ts';

const CHOICES = 'choices: { cell: { parallel: [1, 2] }, capacitor: { capacitance_F: [22, 100] } }\n';

it('sizeScenario answers for each spot by itself', async () => {
  const { answers, batches } = await smallSizing({ lamps: 3 }, CHOICES);
  expect(answers.map(({ spot, designs }) => [spot, designs.all])).toEqual([
    ['bright', 4],
    ['dim', 4],
  ]);
  expect(batches.map(({ spot, named, list }) => [spot, named, list.lamps])).toEqual([
    ['bright', 'cheapest', 3],
    ['dim', 'nearest', 3],
  ]);
});

it('sizeScenario answers for one spot where it is named, without a list where no lamps are to be built', async () => {
  const { answers, batches } = await smallSizing({ spot: 'bright' }, CHOICES);
  expect(answers.map(({ spot, cheapest }) => [spot, cheapest!.failedNights])).toEqual([['bright', 0]]);
  expect(batches).toEqual([]);
});

it('sizeScenario gives one answer where the spot is a choice', async () => {
  const { answers } = await smallSizing({}, CHOICES.replace('{ cell', '{ spot: [bright, dim], cell'));
  expect(answers.map(({ spot, designs }) => [spot, designs.all])).toEqual([[undefined, 8]]);
  expect(answers[0]!.cheapest!.design.spot.name).toBe('bright');
});
