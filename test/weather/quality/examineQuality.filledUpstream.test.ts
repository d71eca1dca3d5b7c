import { describe, expect, it } from 'vitest';
import {
  examineQuality,
  FILLED_UPSTREAM,
  type QualityReport,
} from '../../../sim/weather/quality/examineQuality.ts';
import { GARDEN, gardenYear, hourOf2021, YEAR_2021_MS } from './madeRecord.ts';

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

describe('gaps filled upstream', () => {
  it('with one value for some hours of one day are found', () => {
    const record = gardenYear(3);
    const from = hourOf2021(5, 4, 8);
    record.ghi_W_m2.fill(212.3, from, from + 6);
    expect(found(examineQuality(record, GARDEN))).toEqual([['value-repeated', from, from + 6]]);
  });

  it('with the day before are found in the later days', () => {
    const record = gardenYear(11);
    for (const [month, day, days] of [
      [1, 20, 1],
      [6, 10, 3],
    ] as const) {
      const from = hourOf2021(month, day, 0);
      for (let i = from; i < from + 24 * days; i++) record.ghi_W_m2[i] = record.ghi_W_m2[i - 24]!;
    }
    const report = examineQuality(record, GARDEN);
    expect(found(report).map(([kind]) => kind)).toEqual(['day-repeated', 'day-repeated']);
    const days = found(report).map(([, from, to]) => [Math.floor(from / 24), Math.floor((to - 1) / 24)]);
    expect(days).toEqual([
      [19, 19],
      [160, 162],
    ]);
  });

  it('with another year are found however long they are', () => {
    const record = gardenYear(12, 2 * 8760);
    record.ghi_W_m2.copyWithin(8760, 0, 8760);
    const report = examineQuality(record, GARDEN);
    const days = report.findings.filter(({ kind }) => kind === 'day-repeated');
    expect(days).toHaveLength(1);
    expect(days[0]!.hours).toBeGreaterThan(8700);
    expect(days[0]!.evidence).toContain('2021-01-0');
  });

  it('are told apart from integers, coarse steps and calm overcast', () => {
    const record = gardenYear(13);
    const ghi = record.ghi_W_m2.map((value) => Math.round(value / 10) * 10);
    // An overcast December day in steps of ten.
    const noon = hourOf2021(12, 12, 11);
    ghi.set([0, 10, 10, 10, 10, 10, 0], noon - 3);
    expect(found(examineQuality({ ...record, ghi_W_m2: ghi }, GARDEN))).toEqual([]);
  });

  it('of zeros only make the record missing as a whole', () => {
    const record = { start_ms: YEAR_2021_MS, count: 8760, ghi_W_m2: new Float64Array(8760) };
    const report = examineQuality(record, GARDEN);
    expect(report.findings.map(({ kind }) => kind)).toEqual(['zero-hours']);
    expect(report.findings[0]!.hours).toBeGreaterThan(8700);
  });
});
