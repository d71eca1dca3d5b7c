import { expect, it } from 'vitest';
import { randomStream } from '../../../sim/common/random.ts';
import { sunClockCheck } from '../../../sim/weather/clock/sunClockCheck.ts';
import { type InventedSky, inventedSky } from './inventedSky.ts';

/** What reaches morning and evening unalike. */
const ONE_SIDED = ['nothing', 'fog', 'west', 'east', 'stop'] as const;
type OneSided = (typeof ONE_SIDED)[number];

function skyOf(kind: OneSided, seed: number, step_s: number): InventedSky {
  const random = randomStream(seed, `one-sided ${kind}`);
  const between = (least: number, most: number) => least + (most - least) * random.uniform();
  return {
    seed,
    climate: kind === 'fog' ? 'morning-fog' : 'mixed',
    latitude_deg: between(36, 62),
    longitude_deg: between(-9, 29),
    start_ms: Date.UTC(2015, Math.floor(between(0, 12)), 1),
    days: seed % 3 === 0 ? 60 : 365,
    step_s,
    offset_min: 30,
    ...(kind === 'west' ? { west_deg: between(10, 25) } : {}),
    ...(kind === 'east' ? { east_deg: between(10, 25) } : {}),
    ...(kind === 'stop' ? { stops_h: between(17, 19) } : {}),
  };
}

/** A test that two standard uncertainties hold the truth in 95 of 100 skies, and are narrow enough to be of use. */
export function itHoldsTheTruth(seeds: readonly number[], step_s: number): void {
  it(`holds the truth within two standard uncertainties, of ${seeds.length} seeds with steps of ${step_s} s`, () => {
    const missed: string[] = [];
    let widest = 0;
    for (const kind of ONE_SIDED) {
      for (const seed of seeds) {
        const { pattern, reading } = sunClockCheck(inventedSky(skyOf(kind, seed, step_s)));
        const error = reading.offset_min - 30;
        const interval = 2 * reading.uncertainty_min;
        widest = Math.max(widest, interval);
        if (pattern !== 'one clock' || Math.abs(error) > interval) {
          missed.push(
            `${kind} ${seed}: ${pattern}, off by ${error.toFixed(1)}, stated ${interval.toFixed(1)}`,
          );
        }
      }
    }
    expect(missed.length, missed.join('\n')).toBeLessThanOrEqual(0.05 * ONE_SIDED.length * seeds.length);
    expect(widest).toBeLessThan(30);
  });
}
