import { expect, it } from 'vitest';
import { estimateClockOffset } from '../../../sim/weather/clock/estimateClockOffset.ts';
import { foldSeries, type SunSeries } from '../../../sim/weather/clock/foldSeries.ts';
import { wrapped } from '../../../sim/weather/clock/negativeLogLikelihood.ts';
import { type Climate, type InventedSky, inventedSky } from './inventedSky.ts';

// Series are invented by a sky of its own: positions from astronomy-engine, another clear-sky model, cloud by seed.
// The promise is ten minutes; what limits it is cloud at both ends of short days, hence the count of undecided.
export const PROMISE_MIN = 10;

export function read(series: SunSeries) {
  return estimateClockOffset(foldSeries(series));
}

export const BASE = {
  seed: 5,
  latitude_deg: 51,
  longitude_deg: 7,
  start_ms: Date.UTC(2020, 1, 10),
  climate: 'mixed' as Climate,
};
const SHAPES: { what: string; sky: Omit<InventedSky, 'offset_min'> }[] = [
  { what: 'ten-second samples of ten days', sky: { ...BASE, days: 10, step_s: 10, instantaneous: true } },
  { what: 'minutes of ten days', sky: { ...BASE, days: 10, step_s: 60 } },
  { what: 'ten-minute means of twenty days', sky: { ...BASE, days: 20, step_s: 600 } },
  { what: 'quarter hours of a month', sky: { ...BASE, days: 31, step_s: 900 } },
  { what: 'three-hour means of a year', sky: { ...BASE, days: 365, step_s: 10800 } },
  { what: 'hourly instants of a quarter', sky: { ...BASE, days: 90, step_s: 3600, instantaneous: true } },
  { what: 'hours in whole J/cm2', sky: { ...BASE, days: 120, step_s: 3600, quantum_W_m2: 1 / 0.36 } },
  {
    what: 'a sensor that reads -4 W/m2 at night',
    sky: { ...BASE, days: 120, step_s: 3600, nightReading_W_m2: -4 },
  },
  {
    what: 'a sensor that reads 3 W/m2 at night',
    sky: { ...BASE, days: 120, step_s: 3600, nightReading_W_m2: 3 },
  },
  { what: 'a tenth of the rows lost', sky: { ...BASE, days: 120, step_s: 3600, lost: 0.1 } },
  { what: 'a horizon of 4 degrees all round', sky: { ...BASE, days: 120, step_s: 3600, horizon_deg: 4 } },
];

/** A test for every shape that a file may have. */
export function itFindsOffsets(offsets_min: readonly number[]): void {
  for (const { what, sky } of SHAPES) {
    for (const offset_min of offsets_min) {
      it(`finds ${offset_min} minutes in ${what}`, () => {
        const reading = read(inventedSky({ ...sky, offset_min }));
        expect(reading.verdict, reading.reason).toBe('decided');
        expect(Math.abs(wrapped(reading.offset_min - offset_min))).toBeLessThanOrEqual(PROMISE_MIN);
      });
    }
  }
}
