import { log } from '../common/elementary/log.ts';
import { leakageWarming, seriesGrowthAt } from '../lamp/capacitor/step.ts';
import { cellPhotocurrent_A, cellSaturation_A } from '../lamp/cell/step.ts';
import { diodeLeak_S, diodeSaturation_A } from '../lamp/diode/step.ts';
import type { LampParams } from '../lamp/params.ts';

/** What of a lamp's circuit moves with the temperature, a row each eighth of a kelvin, read by straight lines. */
export interface ThermalTable {
  rows: Float64Array;
  lowest_degC: number;
  highest_degC: number;
}

export const THERMAL_ROWS_PER_K = 8;
/** Numbers of a row, in this order. */
export const THERMAL = {
  lnCellSaturation: 0,
  cellSaturation_A: 1,
  lnDiodeSaturation: 2,
  diodeSaturation_A: 3,
  diodeLeak_S: 4,
  warming: 5,
  photocurrent_A_per_W_m2: 6,
  lnPhotocurrent: 7,
  /** Of the capacitor's series resistance. */
  seriesGrowth: 8,
} as const;
export const THERMAL_COLUMNS = 9;

const made = new WeakMap<LampParams, ThermalTable>();

/**
 * The table of a lamp, reaching over a range of temperatures.
 *
 * in: lamp; degC, the temperatures that will be asked for
 * out: the table, kept with the lamp and made again where it does not reach
 * valid: over -20 to 60 degC straight lines miss a leakage that doubles each 10 K by 1e-5 of itself, the saturation
 *   currents by 6e-5, their logarithms by 3e-6
 */
export function thermalTable(lamp: LampParams, degC: ArrayLike<number>): ThermalTable {
  let lowest_degC = degC[0]!;
  let highest_degC = lowest_degC;
  for (let i = 1; i < degC.length; i++) {
    const one_degC = degC[i]!;
    if (one_degC < lowest_degC) lowest_degC = one_degC;
    else if (one_degC > highest_degC) highest_degC = one_degC;
  }
  const known = made.get(lamp);
  if (known !== undefined && known.lowest_degC <= lowest_degC && known.highest_degC >= highest_degC)
    return known;
  const low = Math.floor(Math.min(lowest_degC, known?.lowest_degC ?? lowest_degC)) - 1;
  const high = Math.ceil(Math.max(highest_degC, known?.highest_degC ?? highest_degC)) + 1;
  const count = (high - low) * THERMAL_ROWS_PER_K + 1;
  const rows = new Float64Array(count * THERMAL_COLUMNS);
  for (let row = 0; row < count; row++) {
    const row_degC = low + row / THERMAL_ROWS_PER_K;
    const cell_A = cellSaturation_A(lamp.cell, row_degC);
    const diode_A = diodeSaturation_A(lamp.diode, row_degC);
    const photo_A = cellPhotocurrent_A(lamp.cell, 1, row_degC);
    rows.set(
      [
        log(cell_A),
        cell_A,
        diode_A > 0 ? log(diode_A) : 0,
        diode_A,
        lamp.diode.leak_S === 0 ? 0 : diodeLeak_S(lamp.diode, row_degC),
        Number.isFinite(lamp.capacitor.leakageDoubling_K) ? leakageWarming(lamp.capacitor, row_degC) : 1,
        photo_A,
        log(photo_A),
        seriesGrowthAt(lamp.capacitor, row_degC),
      ],
      row * THERMAL_COLUMNS,
    );
  }
  const table = { rows, lowest_degC: low, highest_degC: high };
  made.set(lamp, table);
  return table;
}
