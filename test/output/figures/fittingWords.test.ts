import { expect, test } from 'vitest';
import { linesOf, wordsWidth } from '../../../sim/output/figures/fittingWords.ts';

test('a sentence is broken into as few lines as fit, about as long as each other', () => {
  const words = 'one two three four five six seven eight nine ten eleven twelve';
  const width = wordsWidth(words) * 0.55;
  const lines = linesOf(words, width);
  expect(lines).toHaveLength(2);
  expect(lines.join(' ')).toBe(words);
  for (const line of lines) {
    expect(wordsWidth(line)).toBeLessThanOrEqual(width);
    expect(wordsWidth(line)).toBeGreaterThan(width * 0.75);
  }
  expect(linesOf('', 10)).toEqual(['']);
  expect(linesOf('extraordinary', 2)).toEqual(['extraordinary']);
});
