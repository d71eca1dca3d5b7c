import { expect, it } from 'vitest';
import { rowKeeper } from '../../../sim/weather/read/rowKeeper.ts';
import type { DetectedFormat } from '../../../sim/weather/recognise/DetectedFormat.ts';

/** What is kept of rows of one quantity, at stamps in seconds. */
function kept(step_s: number, rows: readonly (readonly [seconds: number, value: number])[]) {
  const stamp = { step_s, irregular: false, descending: false, label: { label: 'start' } };
  const format = { stamp, columns: [{ quantity: 'ghi' }] } as unknown as DetectedFormat;
  const keeper = rowKeeper(format, rows[0]![0] * 1000);
  for (const [seconds, value] of rows) keeper.add(seconds * 1000, Float64Array.of(value), 1);
  const { stamp_ms, columns } = keeper.finish();
  return [...stamp_ms].map((ms, i) => [ms / 1000, columns.ghi![i]]);
}

it('keeps two rows of one stamp apart, where rows stand as they are: a clock that is put back', () => {
  const rows = [
    [0, 1],
    [3600, 2],
    [3600, 3],
    [7200, 4],
  ] as const;
  expect(kept(3600, rows)).toEqual(rows);
});

it('joins rows of minutes to rows of ten', () => {
  const minutes = Array.from({ length: 20 }, (_, i) => [60 * i, i] as const);
  expect(kept(60, minutes)).toEqual([
    [270, 4.5],
    [870, 14.5],
  ]);
});
