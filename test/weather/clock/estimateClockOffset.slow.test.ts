import { describe, expect, it } from 'vitest';
import { wrapped } from '../../../sim/weather/clock/negativeLogLikelihood.ts';
import { CLIMATES, type InventedSky, inventedSky } from './inventedSky.ts';
import { itFindsOffsets, PROMISE_MIN, read } from './itFindsOffsets.ts';

const LATITUDES_DEG = [0, -12, 24, -35, 45, 52, -56, 61, 65];

interface Tally {
  cases: number;
  wrong: string[];
  undecided: number;
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
  itFindsOffsets([-715, -60, 0, 330]);

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
});
