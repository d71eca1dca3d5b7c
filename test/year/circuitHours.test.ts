import { describe, expect, it } from 'vitest';
import { cellSaturation_A } from '../../sim/lamp/cell/step.ts';
import { circuitHours, HOUR, HOUR_COLUMNS, keptHours } from '../../sim/year/circuitHours.ts';
import { thermalTable } from '../../sim/year/thermalTable.ts';
import { makeLamp, RAW_CELL } from '../lamp/makeLamp.ts';
import { libraryLamp } from './days.ts';
import { demoLight } from './demoStretch.ts';

describe('the hours of a circuit', () => {
  it('are read to the same bits wherever the thermal table begins: a lamp that was in a hard winter before', () => {
    const degC = Array.from({ length: 483 }, (_, k) => -3.7 + 0.0371 * k);
    const light = degC.map(() => 35);
    const [plain, hardened] = [makeLamp(libraryLamp()), makeLamp(libraryLamp())];
    thermalTable(hardened, [-31.3, 40]);
    expect(circuitHours(hardened, light, degC)).toEqual(circuitHours(plain, light, degC));
  });

  it.each([60, 1e9])("have the open circuit of the cell's law, with a shunt of %s ohm", (shunt_ohm) => {
    const lamp = makeLamp(libraryLamp({ cell: { ...RAW_CELL, raw: { ...RAW_CELL.raw, shunt_ohm } } }));
    const { cell } = lamp;
    for (const light_W_m2 of [0.01, 1, 30, 1000]) {
      for (const degC of [-20, 25, 60]) {
        const row = circuitHours(lamp, [light_W_m2], [degC]);
        const open_V = row[HOUR.openCircuit_V]!;
        const scale_V = (cell.idealityTimesJunctions * 1.380649e-23 * (degC + 273.15)) / 1.602176634e-19;
        const saturation_A = cellSaturation_A(cell, degC);
        const off_A = (u: number) =>
          row[HOUR.photocurrent_A]! - saturation_A * Math.expm1(u / scale_V) - u / cell.shunt_ohm;
        // What tables miss of the saturation current, 6e-5 of itself, is as much of the thermal voltage.
        expect(off_A(open_V - 1e-4 * scale_V)).toBeGreaterThan(0);
        expect(off_A(open_V + 1e-4 * scale_V)).toBeLessThan(0);
      }
    }
  });

  it('are 0 of all that the dark does not ask for', () => {
    const [dark, lit] = [0, 1].map((light) => circuitHours(makeLamp(libraryLamp()), [light], [5]));
    expect(dark).toHaveLength(HOUR_COLUMNS);
    expect(dark!.subarray(HOUR.photocurrent_A).every((each) => each === 0)).toBe(true);
    expect(dark!.subarray(0, HOUR.photocurrent_A)).toEqual(lit!.subarray(0, HOUR.photocurrent_A));
    expect(lit!.subarray(HOUR.photocurrent_A).every((each) => each !== 0)).toBe(true);
  });

  it('are kept with the light for lamps alike in cell, diode and jar, and made anew for other air', () => {
    const light = demoLight('lawn');
    const lamp = makeLamp(libraryLamp());
    const kept = keptHours(lamp, light);
    const larger = { ...lamp, capacitor: { ...lamp.capacitor, capacitance_F: 900 } };
    expect(keptHours(larger, light)).toBe(kept);
    const twice = { ...lamp, cell: { ...lamp.cell, series_ohm: 2 * lamp.cell.series_ohm + 1 } };
    expect(keptHours(twice, light)).not.toBe(kept);
    const warmer = light.air_degC.map((each) => each + 5);
    const other = keptHours(lamp, { ...light, air_degC: warmer });
    expect(other).not.toBe(kept);
    expect(other.hours).toEqual(circuitHours(lamp, light.planeOfArray_W_m2, other.jar_degC));
    expect(other.jar_degC[12]! - kept.jar_degC[12]!).toBeCloseTo(5, 9);
  });
});
