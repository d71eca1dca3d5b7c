import { expect, test } from 'vitest';
import { nightStrip } from '../../../sim/output/figures/nightStrip.ts';
import { darkNight, smallNight } from '../smallRun.ts';
import { expectWellFormed, marksOf } from './svgMarks.ts';

test('the strip of a winter lets short time hang down by its share of the promise', () => {
  const strip = { svg: nightStrip([smallNight('2025-12-20'), darkNight('2025-12-21', 3)]) };
  const [short] = marksOf(strip, 'path', 'short');
  expect(short).toContain('d="M183 0h183V15h-183z"');
  expectWellFormed(strip.svg);
});
