import { describe, expect, it } from 'vitest';
import { estimateClockOffset, wrapped } from '../../../sim/weather/clock/estimateClockOffset.ts';
import { foldSeries } from '../../../sim/weather/clock/foldSeries.ts';
import type { SunSeries } from '../../../sim/weather/clock/SunSeries.ts';
import { CLIMATES, type Climate, type InventedSky, inventedSky } from './inventedSky.ts';

// Series are invented by a sky of its own: positions from astronomy-engine, another clear-sky model, cloud by seed.
// The promise is ten minutes; what limits it is cloud at both ends of short days, hence the count of undecided.
const PROMISE_MIN = 10;
const LATITUDES_DEG = [0, -12, 24, -35, 45, 52, -56, 61, 65];

interface Tally {
  cases: number;
  wrong: string[];
  undecided: number;
}

function read(series: SunSeries) {
  const days = foldSeries(series);
  return estimateClockOffset(days, Array.from(days.day_ms.keys()));
}

function judge(tally: Tally, sky: InventedSky & { offset_min: number }): void {
  const reading = read(inventedSky(sky));
  tally.cases++;
  if (reading.verdict === 'undecided') tally.undecided++;
  else if (Math.abs(wrapped(reading.offset_min - sky.offset_min)) > PROMISE_MIN) {
    tally.wrong.push(
      `seed ${sky.seed} ${sky.climate} ${sky.latitude_deg} deg: ${reading.offset_min} for ${sky.offset_min}`,
    );
  }
}

/** Offsets from -720 to 719 minutes, spread without a pattern that the hours share. */
const offsetOf = (n: number): number => ((n * 397) % 1440) - 720;

describe('estimateClockOffset', () => {
  it('finds injected offsets of a month of hours to 10 minutes, wrong below 1 percent, undecided below 10', () => {
    const tally: Tally = { cases: 0, wrong: [], undecided: 0 };
    const dull: Tally = { cases: 0, wrong: [], undecided: 0 };
    let n = 0;
    for (const climate of CLIMATES) {
      for (const latitude_deg of LATITUDES_DEG) {
        for (let month = 0; month < 12; month++) {
          n++;
          const sky = {
            seed: n,
            climate,
            latitude_deg,
            longitude_deg: ((n * 47) % 360) - 180,
            start_ms: Date.UTC(2019, month, 1),
            days: 31,
            step_s: 3600,
            offset_min: offsetOf(n),
          };
          judge(climate === 'overcast' ? dull : tally, sky);
        }
      }
    }
    const wrong = [...tally.wrong, ...dull.wrong];
    const cases = tally.cases + dull.cases;
    expect(cases).toBe(540);
    expect(wrong.length / cases, wrong.join('\n')).toBeLessThan(0.01);
    expect((tally.undecided + dull.undecided) / cases).toBeLessThan(0.1);
    // Clear, mixed, fog in the morning, cloud in the afternoon: decided but for midsummer and midwinter at
    // 65 degrees. A month of cloud: a quarter is not.
    expect(tally.undecided / tally.cases).toBeLessThan(0.06);
    expect(dull.undecided / dull.cases).toBeLessThan(0.3);
  });

  it('finds the offset of a year of hours in every climate, wrong below 1 percent, undecided below 2', () => {
    const tally: Tally = { cases: 0, wrong: [], undecided: 0 };
    let n = 1000;
    for (const climate of CLIMATES) {
      for (const latitude_deg of LATITUDES_DEG) {
        for (let twice = 0; twice < 2; twice++) {
          n++;
          judge(tally, {
            seed: n,
            climate,
            latitude_deg,
            longitude_deg: ((n * 47) % 360) - 180,
            start_ms: Date.UTC(2018, twice * 5, 1),
            days: 365,
            step_s: 3600,
            offset_min: offsetOf(n),
          });
        }
      }
    }
    expect(tally.cases).toBe(90);
    expect(tally.wrong, tally.wrong.join('\n')).toEqual([]);
    expect(tally.undecided / tally.cases).toBeLessThan(0.02);
  });

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
