import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { examineQuality } from '../../../sim/weather/quality/examineQuality.ts';
import { madeRecord, YEAR_2021_MS } from './madeRecord.ts';

/** Kinds that change or refuse hours; none may be found where nothing is wrong. */
const KINDS = new Set([
  'impossible',
  'extremely-rare',
  'sun-down',
  'value-repeated',
  'straight-line',
  'zero-hours',
  'day-repeated',
  'air-impossible',
  'air-repeated',
  'drift',
]);

describe('clean records', () => {
  it('of any latitude, cloud, resolution and sensor offset give no finding that takes an hour away', () => {
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
          expect(findings.filter(({ kind }) => KINDS.has(kind))).toEqual([]);
        },
      ),
      { numRuns: 40, seed: 20210301, endOnFailure: true },
    );
    expect(polarNights).toBeGreaterThan(2);
  });

  it('of a sky without clouds, in coarse steps, are no repeated days and no straight lines', () => {
    for (const step_W_m2 of [0.1, 1, 10]) {
      const sky = { seed: 5, latitude_deg: 24, longitude_deg: 45, step_W_m2, mean: 0.995 };
      const record = madeRecord({ ...sky, start_ms: YEAR_2021_MS, hours: 8760 });
      const { findings } = examineQuality(record, { ...sky, elevation_m: 0 });
      expect(findings.filter(({ kind }) => KINDS.has(kind))).toEqual([]);
    }
  });

  it('such as the invented year of the samples pass whole', () => {
    const text = readFileSync('data-samples/invented-year.csv', 'utf8').trim().split('\n').slice(1);
    const column = (index: number) => Float64Array.from(text, (line) => Number(line.split(',')[index]));
    const { findings } = examineQuality(
      { start_ms: Date.UTC(2025, 0, 1), count: text.length, ghi_W_m2: column(1), air_degC: column(2) },
      { latitude_deg: 54, longitude_deg: 10, elevation_m: 20 },
    );
    expect(findings).toEqual([]);
  });
});
