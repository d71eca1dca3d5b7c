import { FULL_SUN_W_M2 } from '../common/constants.ts';
import { bisect } from '../common/numeric.ts';
import { CellDiodeCircuit } from './CellDiodeCircuit.ts';
import { leakageCurrent_A, leakageWarming } from './capacitor/step.ts';
import type { LampParams } from './params.ts';

/** A lamp in steady full sun. */
export interface FullSun {
  /** Capacitor voltage at which what the cell gives equals leakage, standby, balancing and limiter. */
  reachable_V: number;
  /** Current into a capacitor that stands at the driver's cut-off. */
  atCutoff_A: number;
}

/**
 * The voltage, in volts, up to which steady full sun fills the capacitor, and the current with which it begins at the cut-off.
 *
 * in: lamp; temperature_degC, of cell and capacitor
 * out: volts and amperes
 * valid: steady light of 1000 W/m2
 */
export function fullSunReachable(
  { cell, diode, capacitor, driver }: Pick<LampParams, 'cell' | 'diode' | 'capacitor' | 'driver'>,
  temperature_degC: number,
): FullSun {
  const path = new CellDiodeCircuit(cell, diode);
  path.setConditions(FULL_SUN_W_M2, temperature_degC);
  const warming = leakageWarming(capacitor, temperature_degC);
  const drain_A = (v: number) =>
    driver.standby_A +
    leakageCurrent_A(capacitor, v) * warming +
    v * capacitor.balancing_S +
    Math.max(0, v - capacitor.limiter_V) / capacitor.limiter_ohm;
  return {
    reachable_V: bisect((v) => path.reachable_V(drain_A(v)) - v, 0, path.openCircuit_V) ?? 0,
    atCutoff_A: path.solve(driver.cutoff_V, capacitor.series_ohm),
  };
}
