import { describe, expect, test } from 'vitest';
import type { Figure } from '../../../sim/output/figures/Figure.ts';
import { nightChart } from '../../../sim/output/figures/nightChart.ts';
import type { NightColumn } from '../../../sim/output/figures/nightColumns.ts';
import { darkNight, smallNight } from '../smallRun.ts';
import { expectWellFormed, marksOf } from './svgMarks.ts';

const night = (date: string, changes: Partial<NightColumn> = {}): NightColumn => ({
  row: smallNight(date),
  dusk_h: 16.5,
  dawn_h: 31.5,
  spans: [{ from_h: 16.5, to_h: 22.5, kind: 'lit' }],
  firstShort_h: Number.NaN,
  ...changes,
});

const NIGHTS: NightColumn[] = [
  night('2025-12-20'),
  night('2025-12-21', {
    row: darkNight('2025-12-21', 2, 0.5),
    spans: [
      { from_h: 16.5, to_h: 20.5, kind: 'lit' },
      { from_h: 20.5, to_h: 21, kind: 'dim' },
      { from_h: 21, to_h: 22.5, kind: 'out' },
      { from_h: 22.5, to_h: 23, kind: 'beyond' },
    ],
    firstShort_h: 20.5,
  }),
  night('2025-12-22', {
    dusk_h: Number.NaN,
    dawn_h: Number.NaN,
    spans: [],
    row: smallNight('2025-12-22', { outcome: 'nothing-promised' }),
  }),
];

/** The columns, or triangles, that the paths of a class are made of, each from its M on. */
function columnsOf(figure: Figure, mark: string): string[] {
  return marksOf(figure, 'path', mark).flatMap((tag) => tag.match(/M[^M"]*/g) ?? []);
}

describe('the night chart', () => {
  const figure = nightChart('t', 'lamp on spot', NIGHTS, 'Three nights.');

  test('has a column for each night and kind of time in it, and a triangle for each failed night', () => {
    expect(columnsOf(figure, 'lit')).toHaveLength(2);
    expect(columnsOf(figure, 'dim')).toHaveLength(1);
    expect(columnsOf(figure, 'hatched')).toHaveLength(1);
    expect(columnsOf(figure, 'beyond')).toHaveLength(1);
    expect(columnsOf(figure, 'solid')).toHaveLength(1);
    expectWellFormed(figure.svg);
  });

  test('draws the nights of a month as one path of each kind, those of the next as another, all beside each other', () => {
    const dates = ['2025-11-29', '2025-11-30', '2025-12-01'];
    const across = nightChart(
      't',
      'x',
      dates.map((date) => night(date)),
      '',
    );
    expect(marksOf(across, 'path', 'lit')).toHaveLength(2);
    const [first, second, third] = columnsOf(across, 'lit').map((column) =>
      Number(/M([\d.]+)/.exec(column)![1]),
    );
    expect(second! - first!).toBeGreaterThan(0);
    expect(third! - second!).toBeCloseTo(second! - first!, 1);
  });

  test('draws an hour of one night as long as that of another, later ones further down', () => {
    const columns = ['lit', 'dim', 'hatched'].flatMap((mark) => columnsOf(figure, mark));
    const spans = columns.map((tag) => {
      const [, from, to] = /M[\d.]+ ([\d.]+)h[\d.]+V([\d.]+)/.exec(tag)!.map(Number);
      return { from: from!, height: to! - from! };
    });
    const [six, four, half, out] = spans;
    expect(four!.height / six!.height).toBeCloseTo(4 / 6, 3);
    expect(half!.height / six!.height).toBeCloseTo(0.5 / 6, 3);
    expect(half!.from).toBeCloseTo(four!.from + four!.height, 1);
    expect(out!.from).toBeCloseTo(half!.from + half!.height, 1);
  });

  test('breaks the night off where the sun does not sink far enough', () => {
    const all = nightChart('t', 'x', NIGHTS.slice(2), '');
    expect(marksOf(all, 'path', 'night')[0]).not.toContain(' d=');
  });

  test('says in words what it shows, and holds the data of each night', () => {
    expect(figure.svg).toContain('>Three nights.</desc>');
    expect(figure.svg).toContain('>Every night: lamp on spot</title>');
    expect(figure.table.rows).toHaveLength(3);
    const row = Object.fromEntries(
      figure.table.columns.map(({ heading }, k) => [heading, figure.table.rows[1]![k]]),
    );
    expect(row).toMatchObject({
      night: '2025-12-21',
      outcome: 'failed',
      short_h: '2.00',
      out_h: '1.50',
      first_short_local: '20:30',
      cause: 'the capacitor ran empty',
    });
    expect(figure.reader).toMatchObject({ step: 'night', first: 1, stops: { rows: [1] } });
  });

  test('has neither nights nor errors for an empty winter', () => {
    const empty = nightChart('t', 'x', [], '');
    expect(marksOf(empty, 'path', 'lit')).toEqual([]);
    expectWellFormed(empty.svg);
  });
});
