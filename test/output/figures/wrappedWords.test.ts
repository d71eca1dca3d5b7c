import { expect, test } from 'vitest';
import { isolated } from '../../../sim/output/figures/element.ts';
import { wrappedWords } from '../../../sim/output/figures/wrappedWords.ts';

test('a name that is broken is fenced off in each of its lines, and nothing else is', () => {
  const words = `moved to ${isolated('the far end of the lawn')} in March`;
  expect(wrappedWords(words, 18)).toEqual([
    `moved to ${isolated('the far')}`,
    `${isolated('end of the lawn')} in`,
    'March',
  ]);
  expect(wrappedWords('in March', 20)).toEqual(['in March']);
});
