import { describe, expect, it } from 'vitest';
import { estimateClockOffset, wrapped } from '../../../sim/weather/clock/estimateClockOffset.ts';
import { foldSeries } from '../../../sim/weather/clock/foldSeries.ts';
import type { SunSeries } from '../../../sim/weather/clock/SunSeries.ts';
import { type Climate, type InventedSky, inventedSky } from './inventedSky.ts';

// Series are invented by a sky of its own: positions from astronomy-engine, another clear-sky model, cloud by seed.
// The promise is ten minutes; what limits it is cloud at both ends of short days, hence the count of undecided.
const PROMISE_MIN = 10;

function read(series: SunSeries) {
  const days = foldSeries(series);
  return estimateClockOffset(days, Array.from(days.day_ms.keys()));
}

describe('estimateClockOffset', () => {
  const base = {
    seed: 5,
    latitude_deg: 51,
    longitude_deg: 7,
    start_ms: Date.UTC(2020, 1, 10),
    climate: 'mixed' as Climate,
  };
  const shapes: { what: string; sky: Omit<InventedSky, 'offset_min'> }[] = [
    { what: 'ten-second samples of ten days', sky: { ...base, days: 10, step_s: 10, instantaneous: true } },
    { what: 'minutes of ten days', sky: { ...base, days: 10, step_s: 60 } },
    { what: 'ten-minute means of twenty days', sky: { ...base, days: 20, step_s: 600 } },
    { what: 'quarter hours of a month', sky: { ...base, days: 31, step_s: 900 } },
    { what: 'three-hour means of a year', sky: { ...base, days: 365, step_s: 10800 } },
    { what: 'hourly instants of a quarter', sky: { ...base, days: 90, step_s: 3600, instantaneous: true } },
    { what: 'hours in whole J/cm2', sky: { ...base, days: 120, step_s: 3600, quantum_W_m2: 1 / 0.36 } },
    {
      what: 'a sensor that reads -4 W/m2 at night',
      sky: { ...base, days: 120, step_s: 3600, nightReading_W_m2: -4 },
    },
    {
      what: 'a sensor that reads 3 W/m2 at night',
      sky: { ...base, days: 120, step_s: 3600, nightReading_W_m2: 3 },
    },
    { what: 'a tenth of the rows lost', sky: { ...base, days: 120, step_s: 3600, lost: 0.1 } },
    { what: 'a horizon of 4 degrees all round', sky: { ...base, days: 120, step_s: 3600, horizon_deg: 4 } },
  ];
  for (const { what, sky } of shapes) {
    for (const offset_min of [-715, -60, 0, 30, 330, 719]) {
      it(`finds ${offset_min} minutes in ${what}`, () => {
        const reading = read(inventedSky({ ...sky, offset_min }));
        expect(reading.verdict, reading.reason).toBe('decided');
        expect(Math.abs(wrapped(reading.offset_min - offset_min))).toBeLessThanOrEqual(PROMISE_MIN);
      });
    }
  }

  it('reads a file that leaves out the rows of the night', () => {
    const series = inventedSky({ ...base, days: 90, step_s: 3600, offset_min: 30 });
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
    const series = inventedSky({ ...base, days: 60, step_s: 3600, offset_min: 30 });
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
    const series = inventedSky({ ...base, days: 40, step_s: 3600, offset_min: 77 });
    const turned = {
      ...series,
      stamp_ms: series.stamp_ms.toReversed(),
      ghi_W_m2: series.ghi_W_m2.toReversed(),
    };
    expect(read(turned)).toEqual(read(series));
  });
});
