import { piecewiseLinear } from '../common/piecewiseLinear.ts';
import type { DriverParams } from './driver/params.ts';
import { driverCurrent_A } from './driver/step.ts';
import type { LedParams } from './led/params.ts';
import { type LedState, ledAtPower } from './led/step.ts';

/** Driver and LED together against the store voltage: what a lit LED draws, takes and gives. Even steps from 0 V. */
export interface LoadTable {
  step_V: number;
  /** LED forward voltage plus rectifier drop. */
  output_V: Float64Array;
  led_A: Float64Array;
  light_lm: Float64Array;
  efficiency: Float64Array;
}

const ROWS = 2048;

/**
 * Output voltage, LED current and lumens against the store voltage, solved once for the run.
 *
 * in: driver; led; highest_V, up to which the table reaches
 * out: the table
 * valid: straight lines between rows are within 1e-6 of the law for smooth LEDs; the current drawn is not taken from
 *   this table but from the driver's law
 */
export function loadTable(driver: DriverParams, led: LedParams, highest_V: number): LoadTable {
  const table: LoadTable = {
    step_V: highest_V / (ROWS - 1),
    output_V: new Float64Array(ROWS),
    led_A: new Float64Array(ROWS),
    light_lm: new Float64Array(ROWS),
    efficiency: new Float64Array(ROWS),
  };
  for (let i = 0; i < ROWS; i++) {
    const store_V = Math.max(i * table.step_V, 1e-6);
    const state = solveLoad(driver, led, store_V);
    table.output_V[i] = state.output_V;
    table.led_A[i] = state.current_A;
    table.light_lm[i] = state.light_lm;
    table.efficiency[i] = piecewiseLinear(driver.efficiencyAt_V, driver.efficiency, store_V);
  }
  return table;
}

/** The steady state of driver and LED at one store voltage. The LED's forward voltage and its current settle each other. */
function solveLoad(driver: DriverParams, led: LedParams, store_V: number): LedState & { output_V: number } {
  const law = driver.law;
  const efficiency = piecewiseLinear(driver.efficiencyAt_V, driver.efficiency, store_V);
  const rectifier_V = law.kind === 'boost' ? law.rectifier_V : 0;
  // The highest forward voltage is on the safe side: from there the rounds approach the answer without passing the store.
  let output_V = led.forward_V[led.forward_V.length - 1]! + rectifier_V;
  let state: LedState = { current_A: Number.NaN, forward_V: Number.NaN, light_lm: Number.NaN };
  for (let round = 0; round < 60; round++) {
    const beyond = law.kind === 'boost' && store_V >= (1 - law.duty) * output_V;
    const current_A = driverCurrent_A(law, store_V, output_V, beyond);
    if (!Number.isFinite(current_A) || current_A < 0) break;
    state = ledAtPower(led, efficiency * store_V * current_A);
    const next_V = state.forward_V + rectifier_V;
    if (Math.abs(next_V - output_V) < 1e-12) break;
    output_V = next_V;
  }
  return { ...state, output_V };
}
