import { expect, test } from 'vitest';
import { changeChart } from '../../../sim/output/figures/changeChart.ts';
import { expectWellFormed, marksOf, numberOf } from './svgMarks.ts';

test('single changes are bars of the nights they leave, none where none fails', () => {
  const change = {
    change: 'one more <capacitor>',
    detail: '2 instead of 1',
    failedNightsBefore: 18,
    failedNights: 9,
    shortBefore_h: 30,
    short_h: 10,
    effect: 'helps' as const,
    cost: undefined,
  };
  const figure = changeChart(
    't',
    'x',
    [{ ...change, failedNights: 0 }, change, { ...change, failedNights: 80, cost: 4.5 }],
    { summary: '', currency: 'EUR' },
  );
  const bars = marksOf(figure, 'rect', 'fill-shortPale').map((tag) => numberOf(tag, 'width'));
  expect(bars).toHaveLength(2);
  // As long as twice the nights that fail now, and no longer.
  expect(bars[1]! / bars[0]!).toBeCloseTo(4, 3);
  expect(figure.svg).toContain('one more &lt;capacitor&gt;');
  expect(figure.svg).toContain('80 failed (bar cut), adds 4.50 EUR');
  expectWellFormed(figure.svg);
});
