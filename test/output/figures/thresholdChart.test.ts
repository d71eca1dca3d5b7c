import { expect, test } from 'vitest';
import { thresholdChart } from '../../../sim/output/figures/thresholdChart.ts';
import { expectWellFormed, marksOf, numberOf } from './svgMarks.ts';

test('light by threshold has three bars a month, as high as their hours', () => {
  const month = {
    month: '2025-12',
    night: '2025-12-01',
    nights: 31,
    promised_h: 6,
    abovePromised_h: 6,
    aboveHalf_h: 3,
    aboveFifth_h: 4.5,
  };
  const figure = thresholdChart('t', 'x', [month], 1.5, '');
  const height = (name: string) => numberOf(marksOf(figure, 'rect', name)[0]!, 'height');
  expect(height('fill-lightDeep') / height('lit')).toBeCloseTo(0.5, 3);
  expect(height('fill-lightPale') / height('lit')).toBeCloseTo(0.75, 3);
  expect(figure.svg).toContain('at or above the promised 1.5 lm');
  expectWellFormed(figure.svg);
});
