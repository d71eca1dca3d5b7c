import { bisect } from '../common/bisect.ts';
import { FULL_SUN_W_M2 } from '../common/constants.ts';
import { ChargingPath } from './ChargingPath.ts';
import type { LampParams } from './params.ts';
import { leakageCurrent_A, leakageWarming } from './store/step.ts';

/** A lamp in steady full sun. */
export interface FullSun {
  /** Store voltage at which what the cell gives equals leakage, standby, balancing and limiter. */
  ceiling_V: number;
  /** Current into a store that stands at the driver's floor. */
  atFloor_A: number;
}

/**
 * The voltage, in volts, up to which steady full sun fills the store, and the current with which it begins at the floor.
 *
 * in: lamp; temperature_degC, of cell and store
 * out: volts and amperes
 * valid: steady light of 1000 W/m2
 */
export function fullSunCeiling(
  { cell, diode, store, driver }: Pick<LampParams, 'cell' | 'diode' | 'store' | 'driver'>,
  temperature_degC: number,
): FullSun {
  const path = new ChargingPath(cell, diode);
  path.setConditions(FULL_SUN_W_M2, temperature_degC);
  const warming = leakageWarming(store, temperature_degC);
  const drain_A = (v: number) =>
    driver.standby_A +
    leakageCurrent_A(store, v) * warming +
    v * store.balancing_S +
    Math.max(0, v - store.limiter_V) / store.limiter_ohm;
  return {
    ceiling_V: bisect((v) => path.ceiling_V(drain_A(v)) - v, 0, path.openCircuit_V) ?? 0,
    atFloor_A: path.solve(driver.floor_V, store.series_ohm),
  };
}
