import { STANDARD_TEMPERATURE_DEG_C } from '../../common/constants.ts';
import { quickExp } from '../../common/quickExp.ts';
import type { CapacitorParams } from './params.ts';

/**
 * Charge of the main branch at a voltage, coulombs.
 * source: ZubietaBonert2000
 */
export function capacitorCharge_C(capacitor: CapacitorParams, main_V: number): number {
  return main_V * (capacitor.capacitance_F + 0.5 * capacitor.rise_F_V * main_V);
}

/**
 * Voltage of the main branch at a charge, volts: the inverse of capacitorCharge_C.
 *
 * in: capacitor; charge_C, 0 or more
 */
export function capacitorVoltage_V(capacitor: CapacitorParams, charge_C: number): number {
  const c = capacitor.capacitance_F;
  return (2 * charge_C) / (c + Math.sqrt(c * c + 2 * capacitor.rise_F_V * charge_C));
}

/**
 * Energy of the main branch at a voltage, joules: the integral of V dQ = C0 V^2 / 2 + C1 V^3 / 3.
 * source: ZubietaBonert2000
 */
export function capacitorEnergy_J(capacitor: CapacitorParams, main_V: number): number {
  return main_V * main_V * (0.5 * capacitor.capacitance_F + (capacitor.rise_F_V * main_V) / 3);
}

/**
 * How much the leakage is larger at a temperature than at 25 degC.
 *
 * in: capacitor; capacitor_degC
 * source: common practice, no source (doubling per 10 K, from memory)
 */
export function leakageWarming(capacitor: CapacitorParams, capacitor_degC: number): number {
  return quickExp((Math.LN2 * (capacitor_degC - STANDARD_TEMPERATURE_DEG_C)) / capacitor.leakageDoubling_K);
}

/**
 * Leakage current of the bank at 25 degC, amperes: zero at 0 V, the stated value at the rated voltage, between them
 * falling by a factor of e each fold of voltage, or in proportion to it.
 *
 * in: capacitor; main_V
 * departs: expm1 instead of exp, so that an empty capacitor does not leak; 3 percent lower at 1 V with a fold of 0.3 V
 */
export function leakageCurrent_A(capacitor: CapacitorParams, main_V: number): number {
  if (capacitor.leakageEFold_V === Number.POSITIVE_INFINITY)
    return (capacitor.leakage_A * main_V) / capacitor.rated_V;
  return (
    (capacitor.leakage_A * Math.expm1(main_V / capacitor.leakageEFold_V)) /
    Math.expm1(capacitor.rated_V / capacitor.leakageEFold_V)
  );
}
