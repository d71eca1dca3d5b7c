import {
  KELVIN_AT_ZERO_CELSIUS,
  STANDARD_TEMPERATURE_DEG_C,
  THERMAL_VOLTAGE_V_PER_K,
} from '../../common/constants.ts';
import { quickExp } from '../../common/quickExp.ts';
import type { DiodeParams } from './params.ts';

const STANDARD_K = KELVIN_AT_ZERO_CELSIUS + STANDARD_TEMPERATURE_DEG_C;

/**
 * Saturation current of the blocking diode at a temperature, amperes.
 *
 * in: diode; diode_degC
 * out: amperes; 0 for a switch
 * valid: square of the temperature times the barrier's exponential (thermionic emission); a barrier of 0 keeps it
 * source: Bethe1942
 */
export function diodeSaturation_A(diode: DiodeParams, diode_degC: number): number {
  if (diode.barrier_eV === 0) return diode.saturation_A;
  const ratio = (diode_degC + KELVIN_AT_ZERO_CELSIUS) / STANDARD_K;
  const barrier = diode.barrier_eV / (diode.ideality * THERMAL_VOLTAGE_V_PER_K * STANDARD_K);
  return diode.saturation_A * ratio * ratio * quickExp(barrier * (1 - 1 / ratio));
}

/**
 * Leakage conductance that bridges the blocking diode at a temperature, siemens.
 *
 * in: diode; diode_degC
 */
export function diodeLeak_S(diode: DiodeParams, diode_degC: number): number {
  return (
    diode.leak_S * quickExp((Math.LN2 * (diode_degC - STANDARD_TEMPERATURE_DEG_C)) / diode.leakDoubling_K)
  );
}
