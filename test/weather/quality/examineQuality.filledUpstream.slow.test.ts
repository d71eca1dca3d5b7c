import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  examineQuality,
  FILLED_UPSTREAM,
  type QualityReport,
} from '../../../sim/weather/quality/examineQuality.ts';
import { GARDEN, gardenYear, YEAR_2021_MS } from './madeRecord.ts';

/** Findings of gaps filled upstream, as [kind, first hour, hour after the last]. */
function found(report: QualityReport): [string, number, number][] {
  return report.findings
    .filter(({ kind }) => FILLED_UPSTREAM.has(kind))
    .map(({ kind, from_ms, to_ms }) => [
      kind,
      (from_ms - YEAR_2021_MS) / 3.6e6,
      (to_ms - YEAR_2021_MS) / 3.6e6,
    ]);
}

const seed = fc.integer({ min: 1, max: 1e6 });
const RUNS = { numRuns: 15, seed: 7 };

describe('gaps filled upstream', () => {
  it('with one value through day and night are placed to the hour and taken as missing', () => {
    fc.assert(
      fc.property(
        seed,
        fc.integer({ min: 30, max: 330 }),
        fc.integer({ min: 16, max: 170 }),
        (s, day, hours) => {
          const record = gardenYear(s);
          const from = day * 24 + 11;
          record.ghi_W_m2.fill(record.ghi_W_m2[from]! + 20.05, from, from + hours);
          const report = examineQuality(record, GARDEN);
          expect(found(report)).toEqual([['value-repeated', from, from + hours]]);
          expect(report.columns.ghi_W_m2.subarray(from, from + hours).every(Number.isNaN)).toBe(true);
          expect(report.filledUpstream.reduce((sum, flag) => sum + flag, 0)).toBe(hours);
          expect(Number.isNaN(report.columns.ghi_W_m2[from - 1]!)).toBe(false);
        },
      ),
      RUNS,
    );
  });

  it('with a straight line through the night are placed between the two measured hours', () => {
    fc.assert(
      fc.property(
        seed,
        fc.integer({ min: 90, max: 250 }),
        fc.integer({ min: 20, max: 60 }),
        (s, day, hours) => {
          const record = gardenYear(s);
          const { ghi_W_m2: ghi } = record;
          const from = day * 24 + 12;
          const to = from + hours;
          ghi[from] = 410.3;
          ghi[to] = 95.2;
          for (let i = from + 1; i < to; i++) {
            ghi[i] = Math.round((ghi[from]! + ((ghi[to]! - ghi[from]!) * (i - from)) / hours) * 10) / 10;
          }
          // Off the line by far, so that the ends are certain.
          ghi[from - 1] = 120.4;
          ghi[to + 1] = ghi[to]! > 50 ? 2.2 : 60.2;
          const report = examineQuality(record, GARDEN);
          expect(found(report)).toEqual([['straight-line', from + 1, to]]);
        },
      ),
      RUNS,
    );
  });

  it('with zeros are placed from the first to the last hour in which light is due', () => {
    fc.assert(
      fc.property(seed, fc.integer({ min: 0, max: 360 }), fc.integer({ min: 1, max: 4 }), (s, day, days) => {
        const record = gardenYear(s);
        record.ghi_W_m2.fill(0, day * 24, (day + days) * 24);
        const report = examineQuality(record, GARDEN);
        const [only, ...others] = found(report);
        expect(others).toEqual([]);
        expect(only![0]).toBe('zero-hours');
        const due = (i: number) => report.light.outside_W_m2[i]! > 50;
        let first = day * 24;
        while (!due(first)) first++;
        let last = (day + days) * 24 - 1;
        while (!due(last)) last--;
        expect(Math.abs(only![1] - first)).toBeLessThanOrEqual(1);
        expect(Math.abs(only![2] - 1 - last)).toBeLessThanOrEqual(1);
      }),
      RUNS,
    );
  });
});
