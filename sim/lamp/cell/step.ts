import { STANDARD_TEMPERATURE_DEG_C, thermalVoltage_V } from '../../common/constants.ts';
import type { CellParams } from './params.ts';
import { saturationBetween_A } from './SingleDiode.ts';

/**
 * Thermal voltage of the whole bank, volts: ideality times junctions times kT/q.
 *
 * in: cell; cell_degC
 * source: DeSoto2006, eq. 2
 */
export function cellThermal_V(cell: CellParams, cell_degC: number): number {
  return cell.idealityTimesJunctions * thermalVoltage_V(cell_degC);
}

/**
 * Saturation current of the bank at a temperature, amperes: the one with which the open-circuit voltage at
 * 1000 W/m2 moves by the stated coefficient.
 *
 * in: cell; cell_degC, -60 to 120
 * out: amperes, positive
 * valid: a straight line of voltage against temperature, as datasheets state it; good to a few mV over -20 to 60 degC
 * departs: no band-gap law, which holds only with the ideality it was fitted with (with a fitted ideality of 1.5 it
 *   would raise a 2.45 V cell by 0.3 V on cooling by 20 K, where about 0.18 V is measured)
 */
export function cellSaturation_A(cell: CellParams, cell_degC: number): number {
  const warmer_K = cell_degC - STANDARD_TEMPERATURE_DEG_C;
  const open_V = cell.openCircuit_V + cell.voltageTempco_V_per_K * warmer_K;
  const fullSun_A = cell.photocurrent_A * (1 + cell.currentTempco_per_K * warmer_K);
  const thermal_V = cellThermal_V(cell, cell_degC);
  return saturationBetween_A(fullSun_A, open_V, { thermal_V, series_ohm: 0, shunt_ohm: cell.shunt_ohm });
}

/**
 * Photocurrent of the bank, amperes, proportional to the light.
 *
 * in: cell; light_W_m2 on the cell, 0 or more; cell_degC
 */
export function cellPhotocurrent_A(cell: CellParams, light_W_m2: number, cell_degC: number): number {
  const warmer_K = cell_degC - STANDARD_TEMPERATURE_DEG_C;
  return cell.photocurrent_A * (light_W_m2 / 1000) * (1 + cell.currentTempco_per_K * warmer_K);
}
