import { expect, test } from 'vitest';
import { fortnightChart } from '../../../sim/output/figures/fortnightChart.ts';
import { expectWellFormed, marksOf } from './svgMarks.ts';

test('the darkest fortnight marks where it falls short, and lit, dim and out hours apart', () => {
  const hours = Array.from({ length: 48 }, (_, k) => ({
    local: `2025-12-${20 + Math.floor((k + 12) / 24)}T${String((k + 12) % 24).padStart(2, '0')}:00`,
    light_W_m2: k < 4 ? 30 : 0,
    air_degC: -2,
    jar_degC: -1,
    capacitorLowest_V: 1,
    capacitorEnd_V: 1.1,
    light_lm: k >= 5 && k < 8 ? 2 : 0,
    promised_min: k >= 5 && k < 10 ? 60 : 0,
    dim_min: k === 8 ? 60 : 0,
    out_min: k === 9 ? 60 : 0,
  }));
  const nights = [
    { dusk: 5, dawn: 19, firstShort: 8, firstShort_local: '20:00', failed: true },
    { dusk: 29, dawn: 43, firstShort: Number.NaN, firstShort_local: '', failed: false },
  ];
  const figure = fortnightChart('t', 'x', { hours, nights }, { cutoff_V: 0.9, rated_V: 2.7 }, '');
  expect(marksOf(figure, 'rect', 'lit')).toHaveLength(3);
  const tops = ['dim', 'hatched'].map((mark) => {
    const [only, ...others] = marksOf(figure, 'rect', mark);
    expect(others).toEqual([]);
    return / y="([\d.]+)"/.exec(only!)![1];
  });
  // Each hour's hang from the same line.
  expect(tops[0]).toBe(tops[1]);
  expect(figure.svg).not.toContain('goes dark');
  expect(marksOf(figure, 'path', 'event')).toHaveLength(1);
  // Two nights in each of the four panels.
  expect(marksOf(figure, 'rect', 'night')).toHaveLength(8);
  expect(figure.svg).toContain('>20:00</text>');
  expect(figure.reader).toMatchObject({ first: 8, stops: { rows: [8] } });
  expectWellFormed(figure.svg);
});
