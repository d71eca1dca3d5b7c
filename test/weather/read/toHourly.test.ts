import { describe, expect, it } from 'vitest';
import type { NativeSeries } from '../../../sim/weather/read/NativeSeries.ts';
import { toHourly } from '../../../sim/weather/read/toHourly.ts';

const START_MS = Date.UTC(2023, 5, 1, 10);

/** Ten-minute rows of an hour that mark their start, those named missing; whole hours stand before and after it. */
function hourWithout(missing: readonly number[]): number {
  const ghi = Float64Array.from({ length: 18 }, (_, row) => (missing.includes(row - 6) ? Number.NaN : 300));
  const series: NativeSeries = {
    stamp_ms: ghi.map((_, row) => START_MS + row * 600_000),
    step_s: 600,
    fileStep_s: 600,
    columns: { ghi },
    line: new Uint32Array(18).fill(2),
    files: [],
    sha256: '',
    stamp: {} as NativeSeries['stamp'],
    missing: {},
    notes: [],
  };
  return toHourly(series, -5).columns.ghi![1]!;
}

describe('toHourly', () => {
  it('gives an hour a value from three quarters of it on: five rows of six do, four do not', () => {
    expect(hourWithout([])).toBe(300);
    expect(hourWithout([2])).toBe(300);
    expect(hourWithout([2, 3])).toBeNaN();
  });
});
