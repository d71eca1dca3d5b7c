import {
  KELVIN_AT_ZERO_CELSIUS,
  STANDARD_TEMPERATURE_DEG_C,
  thermalVoltage_V,
} from '../../common/constants.ts';
import { exp } from '../../common/elementary/exp.ts';
import { log1p } from '../../common/elementary/log.ts';
import type { DiodeParams } from './params.ts';

type Junction = Pick<DiodeParams, 'saturation_A' | 'ideality' | 'series_ohm' | 'barrier_eV'>;

const STANDARD_K = KELVIN_AT_ZERO_CELSIUS + STANDARD_TEMPERATURE_DEG_C;

/**
 * Saturation current of the blocking diode at a temperature, amperes.
 *
 * in: diode; diode_degC
 * out: amperes; 0 for a switch
 * valid: square of the temperature times the barrier's exponential (thermionic emission); a barrier of 0 keeps it
 * source: Bethe1942
 */
export function diodeSaturation_A(diode: Junction, diode_degC: number): number {
  if (diode.barrier_eV === 0) return diode.saturation_A;
  const ratio = (diode_degC + KELVIN_AT_ZERO_CELSIUS) / STANDARD_K;
  const barrier = diode.barrier_eV / (diode.ideality * thermalVoltage_V());
  return diode.saturation_A * ratio * ratio * exp(barrier * (1 - 1 / ratio));
}

/**
 * Leakage conductance that bridges the blocking diode at a temperature, siemens.
 *
 * in: diode; diode_degC
 */
export function diodeLeak_S(diode: DiodeParams, diode_degC: number): number {
  return diode.leak_S * exp((Math.LN2 * (diode_degC - STANDARD_TEMPERATURE_DEG_C)) / diode.leakDoubling_K);
}

/**
 * Drop of the blocking diode's junction and series resistance at a current, volts.
 *
 * in: diode, a junction; current_A, 0 or more; diode_degC
 * source: Shockley1949
 */
export function diodeDrop_V(diode: Junction, current_A: number, diode_degC: number): number {
  const thermal_V = diode.ideality * thermalVoltage_V(diode_degC);
  const saturation_A = diodeSaturation_A(diode, diode_degC);
  return junctionDrop_V(current_A, saturation_A, thermal_V) + current_A * diode.series_ohm;
}

/** Drop of a junction at a forward current, volts; thermal_V, ideality times kT/q. */
export function junctionDrop_V(current_A: number, saturation_A: number, thermal_V: number): number {
  return thermal_V * log1p(current_A / saturation_A);
}
