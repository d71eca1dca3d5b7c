import { expect, it } from 'vitest';
import { chooseSeed } from '../../data-samples/make/chooseSeed.ts';
import { INVENTED_SEED, yearFrame } from '../../data-samples/make/inventedYear.ts';

it('the invented year was made with the seed that the stated rule picks', () => {
  expect(chooseSeed(yearFrame()).seed).toBe(INVENTED_SEED);
});
