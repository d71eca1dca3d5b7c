import {
  KELVIN_AT_ZERO_CELSIUS,
  STANDARD_TEMPERATURE_DEG_C,
  THERMAL_VOLTAGE_V_PER_K,
} from '../../common/constants.ts';
import { bisect } from '../../common/numeric.ts';

/** One cell at 1000 W/m2 and 25 degC. */
export interface SingleDiode {
  photocurrent_A: number;
  saturation_A: number;
  ideality: number;
  series_ohm: number;
  shunt_ohm: number;
}

/** kT/q at 25 degC, volts. */
export const THERMAL_AT_25_V =
  THERMAL_VOLTAGE_V_PER_K * (KELVIN_AT_ZERO_CELSIUS + STANDARD_TEMPERATURE_DEG_C);

/**
 * Open-circuit voltage of a cell at 25 degC, volts.
 *
 * in: cell; thermal_V, ideality times junctions times kT/q; shareOfFullSun, above 0
 */
export function openCircuit_V(cell: SingleDiode, thermal_V: number, shareOfFullSun: number): number {
  const light_A = cell.photocurrent_A * shareOfFullSun;
  const most_V = thermal_V * Math.log1p(light_A / cell.saturation_A);
  return (
    bisect((v) => light_A - cell.saturation_A * Math.expm1(v / thermal_V) - v / cell.shunt_ohm, 0, most_V) ??
    most_V
  );
}
