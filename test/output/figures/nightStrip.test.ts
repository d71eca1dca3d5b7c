import { expect, test } from 'vitest';
import { nightStrip } from '../../../sim/output/figures/nightStrip.ts';
import { darkNight, smallNight } from '../smallRun.ts';
import { expectWellFormed, marksOf } from './svgMarks.ts';

test('the strip of a winter lets time out, and dim below it, hang down by its share of the promise', () => {
  const strip = { svg: nightStrip([smallNight('2025-12-20'), darkNight('2025-12-21', 3, 1)]) };
  const [out] = marksOf(strip, 'path', 'short');
  expect(out).toContain('d="M183 0h183V10h-183z"');
  const [dim] = marksOf(strip, 'path', 'dim');
  expect(dim).toContain('d="M183 10h183V15h-183z"');
  expectWellFormed(strip.svg);
});
