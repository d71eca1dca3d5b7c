import { describe, expect, test } from 'vitest';
import { terminalRun } from '../../sim/output/terminalRun.ts';
import type { HourlyTrial } from '../../sim/trial/Trial.ts';
import { smallRun, smallStatistics, smallTrial } from './smallRun.ts';

/** Every lamp in every spot; the k-th lamp fails on k nights of the first spot, and on none elsewhere. */
function grid(spots: number, lamps: number): HourlyTrial[] {
  return Array.from({ length: spots * lamps }, (_, n) => {
    const [s, k] = [Math.floor(n / lamps), n % lamps];
    const statistics = smallStatistics(s === 0 ? { failedNights: k } : { smallestReserve_J: 1000 * s + k });
    return smallTrial({ spot: `spot ${s}`, lamp: `lamp ${k}`, statistics });
  });
}

const linesOf = (trials: HourlyTrial[]) => terminalRun(smallRun(trials), {}).trimEnd().split('\n');

describe('a large run on the terminal', () => {
  test('is counted, then laid out spots against lamps', () => {
    const text = linesOf(grid(4, 4)).join('\n');
    expect(text).toContain('Of 16 trials 13 keep the promise every night, 3 break it.');
    expect(text).toContain(
      [
        'Failed nights of the worst winter, a spot a row, a lamp a column:',
        '          lamp 0  lamp 1  lamp 2  lamp 3',
        '  spot 0       0       1       2       3',
        '  spot 1       0       0       0       0',
      ].join('\n'),
    );
  });

  test('shows the decisive trials in full, and says where the others are', () => {
    const lines = linesOf(grid(4, 4));
    const verdicts = lines.flatMap((line) => /^(lamp \d on spot \d) (?:keeps|breaks)/.exec(line)?.[1] ?? []);
    expect(verdicts).toEqual([
      ...['lamp 0 on spot 0', 'lamp 0 on spot 1', 'lamp 2 on spot 3'],
      ...['lamp 3 on spot 3', 'lamp 1 on spot 0', 'lamp 2 on spot 0', 'lamp 3 on spot 0'],
    ]);
    expect(lines.join(' ')).toContain('The other 9: every night in nights.csv');
  });

  test('takes no more lines for ten times as many trials, but for the table', () => {
    const few = linesOf(grid(4, 10)).length;
    const many = linesOf(grid(40, 10));
    expect(many.length).toBeLessThanOrEqual(few + 2 * 36 + 60);
    expect(Math.max(...many.map((line) => line.length))).toBeLessThanOrEqual(100);
  });

  test('cuts the table where even that is long', () => {
    const lines = linesOf(grid(60, 30));
    expect(lines).toContain('  20 more spots: see summary.json');
    expect(lines).toContain('  6 more lamps: see summary.json');
    expect(lines.length).toBeLessThan(500);
  });

  test('of twelve trials is told as a small one', () => {
    const text = linesOf(grid(3, 4)).join('\n');
    expect(text).not.toContain('Shown in full');
    expect(text.match(/(keeps|breaks) its promise/g)).toHaveLength(12);
  });
});
