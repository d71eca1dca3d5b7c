import { expect, test } from 'vitest';
import { nightStrip } from '../../../sim/output/figures/nightStrip.ts';
import { darkNight, nightsFrom, smallNight } from '../smallRun.ts';
import { expectWellFormed, marksOf } from './svgMarks.ts';

test('the strip of a winter lets time out, and dim below it, hang down by its share of the promise', () => {
  const strip = { svg: nightStrip([smallNight('2025-12-20'), darkNight('2025-12-21', 3, 1)]) };
  const [out] = marksOf(strip, 'path', 'short');
  expect(out).toContain('d="M1 0v10h1v-10z"');
  // Behind what is out.
  const [dim] = marksOf(strip, 'path', 'dim');
  expect(dim).toContain('d="M1 0v15h1v-15z"');
  const [lit] = marksOf(strip, 'path', 'lit');
  expect(lit).toContain('d="M0 0v30h2v-30z"');
  expect(strip.svg).toContain('scale(183 1)');
  expectWellFormed(strip.svg);
});

test('a strip among hundreds is short: a year of which no night is short takes 1 kB', () => {
  const year = nightsFrom('2025-07-01', 365, smallNight);
  const strip = nightStrip(year, false);
  expect(strip.length).toBeLessThan(1000);
  expectWellFormed(strip);
});
