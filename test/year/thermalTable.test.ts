import { describe, expect, it } from 'vitest';
import { leakageWarming, seriesGrowthAt } from '../../sim/lamp/capacitor/step.ts';
import { cellPhotocurrent_A, cellSaturation_A } from '../../sim/lamp/cell/step.ts';
import { diodeSaturation_A } from '../../sim/lamp/diode/step.ts';
import { THERMAL, THERMAL_COLUMNS, THERMAL_ROWS_PER_K, thermalTable } from '../../sim/year/thermalTable.ts';
import { makeLamp } from '../lamp/makeLamp.ts';
import { libraryLamp } from './days.ts';

describe('what moves with the temperature', () => {
  it('is read by straight lines to the stated share of itself, -20 to 60 degC', () => {
    const lamp = makeLamp(libraryLamp());
    const { rows, lowest_degC } = thermalTable(lamp, [-20, 60]);
    const worst = { warming: 0, cell: 0, diode: 0, light: 0, log: 0, growth: 0 };
    for (let degC = -20; degC <= 60; degC += 0.0371) {
      const place = (degC - lowest_degC) * THERMAL_ROWS_PER_K;
      const part = place % 1;
      const at = Math.floor(place) * THERMAL_COLUMNS;
      const read = (column: number) =>
        rows[at + column]! * (1 - part) + rows[at + THERMAL_COLUMNS + column]! * part;
      const note = (name: keyof typeof worst, off: number) => {
        worst[name] = Math.max(worst[name], Math.abs(off));
      };
      note('warming', read(THERMAL.warming) / leakageWarming(lamp.capacitor, degC) - 1);
      note('cell', read(THERMAL.cellSaturation_A) / cellSaturation_A(lamp.cell, degC) - 1);
      note('diode', read(THERMAL.diodeSaturation_A) / diodeSaturation_A(lamp.diode, degC) - 1);
      note('light', read(THERMAL.photocurrent_A_per_W_m2) / cellPhotocurrent_A(lamp.cell, 1, degC) - 1);
      note('growth', read(THERMAL.seriesGrowth) / seriesGrowthAt(lamp.capacitor, degC) - 1);
      note('log', read(THERMAL.lnCellSaturation) - Math.log(cellSaturation_A(lamp.cell, degC)));
    }
    expect(worst.warming).toBeLessThan(1e-5);
    expect(worst.cell).toBeLessThan(6e-5);
    expect(worst.diode).toBeLessThan(6e-5);
    expect(worst.light).toBeLessThan(1e-12);
    expect(worst.growth).toBeLessThan(1e-6);
    expect(worst.log).toBeLessThan(3e-6);
  });
});
