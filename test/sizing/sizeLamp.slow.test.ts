import { expect, it } from 'vitest';
import { beside, SPACES, someWeather, spaceOf } from './wholeGrid.ts';

// Whole years of several climates; together more than 500 designs.
const CASES = Object.entries(SPACES).flatMap(([name, space], k) => [
  { name, space, seed: 11 + k, share: 1, budget: 20 },
  { name, space, seed: 31 + k, share: 0.55, budget: 12 },
  { name, space, seed: 51 + k, share: 1.3, budget: 15 },
]);

let designs = 0;

it.each(CASES)(
  'answers as a run of every design: $name, seed $seed',
  async ({ space, seed, share, budget }) => {
    const { all, answer } = await beside(spaceOf(space), someWeather(seed, 365, share), { budget });
    designs += all.length;
    expect(answer.designs.ran + answer.designs.ruledOut).toBe(all.length);
  },
);

it('was more than 500 designs', () => {
  expect(designs).toBeGreaterThanOrEqual(500);
});
