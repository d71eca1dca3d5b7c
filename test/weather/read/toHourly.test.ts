import { describe, expect, it } from 'vitest';
import type { NativeSeries } from '../../../sim/weather/read/NativeSeries.ts';
import { toHourly } from '../../../sim/weather/read/toHourly.ts';

const START_MS = Date.UTC(2023, 5, 1, 10);

/** A series of light. in: first_ms, stamp of its first row */
function seriesOf(ghi: Float64Array, step_s: number, first_ms: number): NativeSeries {
  return {
    stamp_ms: ghi.map((_, row) => first_ms + row * step_s * 1000),
    step_s,
    fileStep_s: step_s,
    columns: { ghi },
    line: new Uint32Array(ghi.length).fill(2),
    files: [],
    sha256: '',
    stamp: {} as NativeSeries['stamp'],
    missing: {},
    notes: [],
  };
}

/** Ten-minute rows of an hour that mark their start, those named missing; whole hours stand before and after it. */
function hourWithout(missing: readonly number[]): number {
  const ghi = Float64Array.from({ length: 18 }, (_, row) => (missing.includes(row - 6) ? Number.NaN : 300));
  const series = seriesOf(ghi, 600, START_MS);
  return toHourly(series, -5).columns.ghi![1]!;
}

describe('toHourly', () => {
  it('gives an hour a value from three quarters of it on: five rows of six do, four do not', () => {
    expect(hourWithout([])).toBe(300);
    expect(hourWithout([2])).toBe(300);
    expect(hourWithout([2, 3])).toBeNaN();
  });

  it('leaves a row that is the hour as it is, to the bit', () => {
    const ghi = Float64Array.from([161.5187723777139, 151.42221277562385, 0.1, 1e-7, 1361.3]);
    expect(toHourly(seriesOf(ghi, 3600, START_MS), -30).columns.ghi).toEqual(ghi);
  });
});
