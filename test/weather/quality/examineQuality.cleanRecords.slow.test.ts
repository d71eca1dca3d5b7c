import fc from 'fast-check';
import { expect, it } from 'vitest';
import { examineQuality } from '../../../sim/weather/quality/examineQuality.ts';
import { KINDS_OF_FAULT } from './kindsOfFault.ts';
import { madeRecord, YEAR_2021_MS } from './madeRecord.ts';

it('clean records of any latitude, cloud, resolution and sensor offset give no finding that takes an hour away', () => {
  let polarNights = 0;
  fc.assert(
    fc.property(
      fc.record({
        seed: fc.integer({ min: 1, max: 1e6 }),
        latitude_deg: fc.double({ min: -70, max: 78, noNaN: true }),
        longitude_deg: fc.double({ min: -180, max: 180, noNaN: true }),
        step_W_m2: fc.constantFrom(0.01, 0.1, 1, 10 / 3.6, 10),
        mean: fc.double({ min: 0.15, max: 0.9, noNaN: true }),
        offset_W_m2: fc.constantFrom(0, -2, 2),
      }),
      ({ offset_W_m2, ...sky }) => {
        if (Math.abs(sky.latitude_deg) > 68) polarNights++;
        const record = madeRecord({
          ...sky,
          ...(offset_W_m2 === 0 ? {} : { offset_W_m2 }),
          start_ms: YEAR_2021_MS,
          hours: 8760,
        });
        const { findings } = examineQuality(record, { ...sky, elevation_m: 0 });
        expect(findings.filter(({ kind }) => KINDS_OF_FAULT.has(kind))).toEqual([]);
      },
    ),
    { numRuns: 40, seed: 20210301, endOnFailure: true },
  );
  expect(polarNights).toBeGreaterThan(2);
});
