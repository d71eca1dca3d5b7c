import { describe, expect, it } from 'vitest';
import { inventedSky } from './inventedSky.ts';
import { BASE, itFindsOffsets, PROMISE_MIN, read } from './itFindsOffsets.ts';

describe('estimateClockOffset', () => {
  itFindsOffsets([30, 719]);

  it('reads a file that leaves out the rows of the night', () => {
    const series = inventedSky({ ...BASE, days: 90, step_s: 3600, offset_min: 30 });
    const lit = Array.from(series.stamp_ms.keys()).filter((i) => series.ghi_W_m2[i]! > 0.5);
    const reading = read({
      ...series,
      stamp_ms: Float64Array.from(lit, (i) => series.stamp_ms[i]!),
      ghi_W_m2: Float64Array.from(lit, (i) => series.ghi_W_m2[i]!),
    });
    expect(reading.verdict, reading.reason).toBe('decided');
    expect(Math.abs(reading.offset_min - 30)).toBeLessThanOrEqual(PROMISE_MIN);
  });

  it('is undecided on nothing, zeros, one value, noise, and two days', () => {
    const series = inventedSky({ ...BASE, days: 60, step_s: 3600, offset_min: 30 });
    let state = 1;
    const noise = series.ghi_W_m2.map(() => {
      state = (state * 48271) % 2147483647;
      return (state / 2147483647) * 800;
    });
    const none = { ...series, stamp_ms: new Float64Array(0), ghi_W_m2: new Float64Array(0) };
    for (const broken of [
      none,
      { ...series, ghi_W_m2: series.ghi_W_m2.map(() => 0) },
      { ...series, ghi_W_m2: series.ghi_W_m2.map(() => 250) },
      { ...series, ghi_W_m2: series.ghi_W_m2.map(() => Number.NaN) },
      { ...series, ghi_W_m2: noise },
      { ...series, stamp_ms: series.stamp_ms.slice(0, 48), ghi_W_m2: series.ghi_W_m2.slice(0, 48) },
    ]) {
      const reading = read(broken);
      expect(reading.verdict).toBe('undecided');
      expect(reading.reason).not.toBe('');
    }
  });

  it('gives the same reading for rows in another order', () => {
    const series = inventedSky({ ...BASE, days: 40, step_s: 3600, offset_min: 77 });
    const turned = {
      ...series,
      stamp_ms: series.stamp_ms.toReversed(),
      ghi_W_m2: series.ghi_W_m2.toReversed(),
    };
    expect(read(turned)).toEqual(read(series));
  });
});
