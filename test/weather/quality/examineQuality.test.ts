import { describe, expect, it } from 'vitest';
import { examineQuality } from '../../../sim/weather/quality/examineQuality.ts';
import { problemsOfFindings } from '../../../sim/weather/quality/Finding.ts';
import { GARDEN, gardenYear, hourOf2021, madeRecord, YEAR_2021_MS } from './madeRecord.ts';

function only(kind: string, report: ReturnType<typeof examineQuality>) {
  const found = report.findings.filter((finding) => finding.kind === kind);
  expect(found).toHaveLength(1);
  return found[0]!;
}

describe('examineQuality', () => {
  it('leaves the given columns as they are', () => {
    const record = gardenYear(1);
    record.ghi_W_m2[5000] = 5000;
    const before = Float64Array.from(record.ghi_W_m2);
    examineQuality(record, GARDEN);
    expect(record.ghi_W_m2).toEqual(before);
  });

  it('takes impossible values as missing, one by one', () => {
    const record = gardenYear(1);
    const noon = hourOf2021(12, 21, 11);
    record.ghi_W_m2[noon] = 900;
    record.ghi_W_m2[noon + 24] = -40;
    const report = examineQuality(record, GARDEN);
    const found = report.findings.filter(({ kind }) => kind === 'impossible');
    expect(found.map(({ from_ms }) => (from_ms - YEAR_2021_MS) / 3.6e6)).toEqual([noon, noon + 24]);
    expect(found[0]!.evidence).toBe(
      '900 W/m2 in the hour from 2021-12-21 11:00 UTC with the sun at 13 degrees, where -15 to 439.5 W/m2 can be',
    );
    expect(report.columns.ghi_W_m2[noon]).toBeNaN();
  });

  it('sets a direct column aside that reads light at night, and refuses it where nothing else shows the day', () => {
    const record = gardenYear(1);
    const dni_W_m2 = record.ghi_W_m2.map((value) => (value > 0 ? value : 14));
    const beside = examineQuality({ ...record, dni_W_m2 }, GARDEN);
    expect(only('sun-down', beside)).toMatchObject({ column: 'dni_W_m2', effect: 'column set aside' });
    expect(beside.columns.dni_W_m2).toBeUndefined();
    expect(beside.columns.ghi_W_m2).toBeDefined();
    const none = record.ghi_W_m2.map(() => Number.NaN);
    const alone = examineQuality({ ...record, ghi_W_m2: none, dni_W_m2 }, GARDEN);
    expect(only('sun-down', alone).effect).toBe('refused');
  });

  it('refuses a column of which many values are impossible', () => {
    const record = gardenYear(1);
    const report = examineQuality(
      { ...record, ghi_W_m2: record.ghi_W_m2.map((value) => value * 3.6) },
      GARDEN,
    );
    expect(only('impossible', report).effect).toBe('refused');
    expect(problemsOfFindings('made-up.csv', report.findings)).toMatchObject([
      { code: 'WEATHER_VALUE_OUT_OF_RANGE', file: 'made-up.csv', field: 'ghi_W_m2' },
    ]);
  });

  it('sets a spark of light in the dark to 0 and refuses a clock five hours off', () => {
    const record = gardenYear(2);
    record.ghi_W_m2[hourOf2021(1, 9, 1)] = 22;
    const spark = examineQuality(record, GARDEN);
    expect(only('sun-down', spark)).toMatchObject({ hours: 1, effect: 'set to 0' });
    expect(spark.columns.ghi_W_m2[hourOf2021(1, 9, 1)]).toBe(0);

    const late = examineQuality({ ...gardenYear(2), start_ms: YEAR_2021_MS + 5 * 3.6e6 }, GARDEN);
    expect(only('sun-down', late).effect).toBe('refused');
    expect(problemsOfFindings('made-up.csv', late.findings).map(({ code }) => code)).toContain(
      'WEATHER_SUN_DOWN',
    );
  });

  it('measures the offset of the nights and sets it to 0', () => {
    const sky = { ...GARDEN, seed: 4, start_ms: YEAR_2021_MS, hours: 8760, step_W_m2: 0.1, mean: 0.5 };
    const report = examineQuality(madeRecord({ ...sky, offset_W_m2: -3 }), GARDEN);
    expect(only('night-offset', report).evidence).toMatch(
      /the dark hours read -(2\.9|3|3\.1) W\/m2 in the middle/,
    );
    for (let i = 0; i < 8760; i++) if (report.light.dark[i]) expect(report.columns.ghi_W_m2[i]).toBe(0);
  });

  it('takes a sensor under snow or without power as missing though its readings change', () => {
    const record = gardenYear(14);
    const from = hourOf2021(2, 20, 0);
    for (let i = from; i < from + 48; i++) record.ghi_W_m2[i] = 0.1 * (i % 3);
    const report = examineQuality(record, GARDEN);
    const found = report.findings.filter(({ kind }) => kind === 'zero-hours');
    expect(found.map(({ from_ms }) => Math.floor((from_ms - YEAR_2021_MS) / 86_400_000))).toEqual([50, 51]);
    expect(report.columns.ghi_W_m2[from + 11]).toBeNaN();
  });

  it('reports light above the cleanest sky without changing it', () => {
    const record = gardenYear(6);
    const noon = hourOf2021(6, 3, 11);
    record.ghi_W_m2[noon] = 1150;
    const report = examineQuality(record, GARDEN);
    expect(only('above-clear-sky', report)).toMatchObject({ hours: 1, effect: 'kept' });
    expect(report.columns.ghi_W_m2[noon]).toBe(1150);
  });

  it('tells components that close from those that do not, and sets these aside', () => {
    const record = gardenYear(8);
    const { light } = examineQuality(record, GARDEN);
    const dhi = record.ghi_W_m2.map((value) => 0.4 * value);
    const dni = record.ghi_W_m2.map((value, i) =>
      light.sun.upShare[i]! > 0 ? (0.6 * value) / (light.sun.upCosZenith[i]! * light.sun.upShare[i]!) : 0,
    );
    const good = examineQuality({ ...record, dni_W_m2: dni, dhi_W_m2: dhi }, GARDEN);
    expect(good.findings.filter(({ kind }) => kind === 'not-closing')).toEqual([]);
    expect(good.columns.dni_W_m2).toBeDefined();
    // Direct on the flat taken for direct normal.
    const flat = record.ghi_W_m2.map((value) => 0.6 * value);
    const bad = examineQuality({ ...record, dni_W_m2: flat, dhi_W_m2: dhi }, GARDEN);
    expect(only('not-closing', bad).effect).toBe('column set aside');
    expect(bad.columns.dni_W_m2).toBeUndefined();
  });

  it('finds the year in which the sensor is dimmed', () => {
    const record = gardenYear(9, 4 * 8760);
    for (let i = 2 * 8760; i < 3 * 8760; i++) record.ghi_W_m2[i]! *= 0.88;
    const report = examineQuality(record, GARDEN);
    const drift = only('drift', report);
    expect(new Date(drift.from_ms).toISOString()).toBe('2023-01-01T00:00:00.000Z');
    expect(drift.evidence).toMatch(/1[0-4](\.\d)? percent darker/);
  });

  it('takes impossible, spiking and frozen air temperatures as missing', () => {
    const record = gardenYear(10);
    record.air_degC[100] = 85;
    record.air_degC[200] = record.air_degC[199]! - 31;
    record.air_degC.fill(4.4, 300, 348);
    record.air_degC[299] = 3;
    record.air_degC[348] = 3;
    const report = examineQuality(record, GARDEN);
    const found = report.findings.map(({ kind, from_ms, hours }) => [
      kind,
      (from_ms - YEAR_2021_MS) / 3.6e6,
      hours,
    ]);
    expect(found).toEqual([
      ['beyond-records', 100, 1],
      ['air-spike', 200, 1],
      ['air-repeated', 300, 48],
    ]);
    expect(report.columns.air_degC!.reduce((sum, value) => sum + (Number.isNaN(value) ? 1 : 0), 0)).toBe(50);
  });

  it('passes a polar night of zeros', () => {
    const site = { latitude_deg: 74, longitude_deg: 20, elevation_m: 0 };
    const sky = { ...site, seed: 3, start_ms: YEAR_2021_MS, hours: 8760, step_W_m2: 0.1, mean: 0.4 };
    const record = madeRecord(sky);
    expect(record.ghi_W_m2.subarray(0, 20 * 24).every((value) => value === 0)).toBe(true);
    expect(examineQuality(record, site).findings).toEqual([]);
  });
});
