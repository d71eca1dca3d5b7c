import { expect, test } from 'vitest';
import { skyChart } from '../../../sim/output/figures/skyChart.ts';
import { expectWellFormed, marksOf, numberOf } from './svgMarks.ts';

test('the sky from a spot draws what is hidden in one rect a run, and the way of the sun dotted where hidden', () => {
  const figure = skyChart(
    't',
    'north & side',
    {
      grid: {
        bearing_deg: [45, 135, 225, 315],
        elevation_deg: [22.5, 67.5],
        inLeaf: [
          [1, 0, 0, 1],
          [1, 1, 0.5, 1],
        ],
        bare: undefined,
      },
      outlines: [],
      sunPaths: [
        {
          month: 12,
          points: [
            { bearing_deg: 150, elevation_deg: 5, passes: 0 },
            { bearing_deg: 180, elevation_deg: 12, passes: 1 },
            { bearing_deg: 210, elevation_deg: 5, passes: 1 },
          ],
        },
      ],
      months: [{ month: 12, sun_h: 7.5, beam_h: 2.5 }],
    },
    false,
  );
  const hidden = marksOf(figure, 'rect', 'shut');
  expect(hidden).toHaveLength(2);
  expect(numberOf(hidden[0]!, 'width')).toBeCloseTo(numberOf(hidden[1]!, 'width') * 2, 1);
  expect(hidden[1]).toContain('fill-opacity="0.5"');
  expect(marksOf(figure, 'path', 'path')).toHaveLength(1);
  expect(marksOf(figure, 'path', 'pathHidden')).toHaveLength(1);
  expect(
    numberOf(marksOf(figure, 'rect', 'slanted')[0]!, 'height') /
      numberOf(marksOf(figure, 'rect', 'lit')[0]!, 'height'),
  ).toBeCloseTo(3, 2);
  expectWellFormed(figure.svg);
});
