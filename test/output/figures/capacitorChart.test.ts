import { describe, expect, test } from 'vitest';
import { capacitorChart } from '../../../sim/output/figures/capacitorChart.ts';
import { smallNight } from '../smallRun.ts';
import { expectWellFormed, marksOf } from './svgMarks.ts';

describe('the capacitor through the year', () => {
  const days = ['2025-12-30', '2025-12-31'].map((date, k) => ({
    night: date,
    lowest_V: 1 + k,
    highest_V: 2 + k,
  }));
  const rows = new Map([['2025-12-30', smallNight('2025-12-30', { highestReachable_V: 2.5 })]]);
  const figure = capacitorChart('t', 'x', days, rows, { cutoff_V: 0.9, rated_V: 2.7 }, '');

  test('has one band, one reachable voltage, and the cut-off and the rated voltage by name', () => {
    expect(marksOf(figure, 'path', 'band')).toHaveLength(1);
    expect(marksOf(figure, 'path', 'reachable')).toHaveLength(1);
    expect(marksOf(figure, 'path', 'limit')).toHaveLength(2);
    expect(figure.svg).toContain('cut-off 0.9 V');
    expect(figure.svg).toContain('rated 2.7 V');
    expectWellFormed(figure.svg);
  });

  test('places the limits by one scale from zero', () => {
    const [cutoff, rated] = marksOf(figure, 'path', 'limit').map((tag) =>
      Number(/M[\d.]+ ([\d.]+)H/.exec(tag)![1]),
    );
    const zero = 330 - 42;
    expect((zero - rated!) / (zero - cutoff!)).toBeCloseTo(2.7 / 0.9, 2);
  });

  test('begins to read at the lowest day, and leaves out a reachable voltage that is not known', () => {
    expect(figure.reader!.first).toBe(0);
    expect(figure.table.rows).toEqual([
      ['2025-12-30', '1.000', '2.000', '2.500'],
      ['2025-12-31', '2.000', '3.000', ''],
    ]);
  });
});
