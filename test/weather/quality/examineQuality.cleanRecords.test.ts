import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { examineQuality } from '../../../sim/weather/quality/examineQuality.ts';
import { KINDS_OF_FAULT } from './kindsOfFault.ts';
import { madeRecord, YEAR_2021_MS } from './madeRecord.ts';

describe('clean records', () => {
  it('of a sky without clouds, in coarse steps, are no repeated days and no straight lines', () => {
    for (const step_W_m2 of [0.1, 1, 10]) {
      const sky = { seed: 5, latitude_deg: 24, longitude_deg: 45, step_W_m2, mean: 0.995 };
      const record = madeRecord({ ...sky, start_ms: YEAR_2021_MS, hours: 8760 });
      const { findings } = examineQuality(record, { ...sky, elevation_m: 0 });
      expect(findings.filter(({ kind }) => KINDS_OF_FAULT.has(kind))).toEqual([]);
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
