import { describe, expect, it } from 'vitest';
import { columnNumbers } from '../../../sim/weather/recognise/columnNumbers.ts';

const DAY_MS = 86_400_000;
const HOURS = 8760;
const wall_ms = Float64Array.from({ length: HOURS }, (_, i) => Date.UTC(2025, 0, 1) + (i * DAY_MS) / 24);

describe('a column is a counter', () => {
  /** Whether a column of such numbers is taken for running sums. */
  const runs = (value: (row: number) => number): boolean => {
    const rows = Array.from({ length: 60 * 24 }, (_, row) => [value(row).toFixed(2)]);
    const layout = { delimiter: ',', decimal: '.', thousands: '', width: 1, headings: ['sum'] } as never;
    const { running } = columnNumbers({
      layout,
      rows,
      wall_ms,
      step_s: 3600,
      offset_ms: 0,
      stampColumns: new Set(),
    });
    return running.has(0);
  };
  /** A counter that goes up in the first hours of each day, and is set back evenly so many times. */
  const counter = (hoursUp: number, resets: number) => {
    const stands: number[] = [];
    const every = Math.floor((60 * 24) / (resets + 1));
    for (let row = 0, stand = 500; row < 60 * 24; row++) {
      if (row > 0 && row % every === 0 && row / every <= resets) stand = 0;
      else if (row % 24 < hoursUp) stand += 10;
      stands.push(stand);
    }
    return (row: number) => stands[row]!;
  };

  it.each<[what: string, value: (row: number) => number, is: boolean]>([
    ['that stands still for three hours of the clock', counter(21, 0), true],
    ['but not one that does for two', counter(22, 0), false],
    ['that goes up in an eighth of all hours', counter(3, 0), true],
    ['but not one that does in a twelfth', counter(2, 0), false],
    ['that was set back three times', counter(12, 3), true],
    ['but not one that was four times', counter(12, 4), false],
    ['but not the number of the row', (row) => row + 1, false],
    ['but not the number of the day', (row) => 1 + Math.floor(row / 24), false],
    ['but not one that falls to a half', (row) => counter(12, 0)(row) / (row > 700 ? 2 : 1), false],
  ])('%s', (_, value, is) => {
    expect(runs(value)).toBe(is);
  });
});
