import { describe, expect, it } from 'vitest';
import { doubtfulCell } from '../../../sim/lamp/cell/params.ts';
import { cellSchema } from '../../../sim/lamp/cell/schema.ts';

const SOUND = {
  short_circuit_mA: 500,
  open_circuit_V: 2.45,
  best_current_mA: 460,
  best_voltage_V: 1.95,
  cells_in_series: 4,
  area_cm2: 60,
};

describe('doubtfulCell', () => {
  it('has nothing against an ordinary cell, nor against model parameters', () => {
    expect(doubtfulCell(cellSchema.parse(SOUND))).toEqual([]);
  });

  it('doubts the number of junctions where each would have a third of a volt', () => {
    const [doubt] = doubtfulCell(cellSchema.parse({ ...SOUND, cells_in_series: 8, area_cm2: 120 }));
    expect(doubt).toContain('2.45 V over 8 junctions is 0.31 V each');
  });

  it('doubts amperes typed as milliamperes, and a cell that makes more than the sun gives', () => {
    expect(
      doubtfulCell(cellSchema.parse({ ...SOUND, short_circuit_mA: 0.5, best_current_mA: 0.46 }))[0],
    ).toContain('0.033 mA from each square centimetre');
    expect(doubtfulCell(cellSchema.parse({ ...SOUND, area_cm2: 6 }))[0]).toContain('silicon gives 5 to 45');
  });
});
