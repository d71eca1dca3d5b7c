import { piecewiseLinear } from '../common/numeric.ts';
import type { DriverParams } from './driver/params.ts';
import { driverCurrent_A } from './driver/step.ts';
import type { LedParams } from './led/params.ts';
import { type LedState, ledAtPower } from './led/step.ts';

/** Driver and LED together, one column a quantity, against the capacitor voltage in even steps from 0 V. */
export interface LoadColumns {
  /** LED forward voltage plus rectifier drop. */
  output_V: Float64Array;
  /** Slope of the current drawn against the capacitor voltage, and the slope's slope: they steer the time step. */
  slope_S: Float64Array;
  bend_A_V2: Float64Array;
  led_A: Float64Array;
  light_lm: Float64Array;
  efficiency: Float64Array;
}

/** What a lit LED draws, takes and gives. */
export interface LoadTable {
  step_V: number;
  /** While the driver's law holds. */
  within: LoadColumns;
  /** While a boost's inductor no longer runs empty and its stated current limit holds; the same as within for the rest. */
  beyond: LoadColumns;
}

const ROWS = 2048;
/** Rows to either side over which a bend is taken, some 0.05 V: the corners of an LED's table are not its curve. */
const BEND_REACH = 25;

/**
 * Output voltage, LED current and lumens against the capacitor voltage, solved once for the run.
 *
 * in: driver; led; highest_V, up to which the table reaches
 * out: the table
 * valid: straight lines between rows are within 1e-6 of the law for smooth LEDs; the current drawn is not taken from
 *   this table but from the driver's law
 */
export function loadTable(driver: DriverParams, led: LedParams, highest_V: number): LoadTable {
  const step_V = highest_V / (ROWS - 1);
  const within = loadColumns(driver, led, step_V, false);
  const limited = driver.law.kind === 'boost' && !Number.isNaN(driver.law.limit_A);
  return { step_V, within, beyond: limited ? loadColumns(driver, led, step_V, true) : within };
}

function loadColumns(driver: DriverParams, led: LedParams, step_V: number, beyond: boolean): LoadColumns {
  const column = () => new Float64Array(ROWS);
  const drawn_A = column();
  const columns: LoadColumns = {
    output_V: column(),
    slope_S: column(),
    bend_A_V2: column(),
    led_A: column(),
    light_lm: column(),
    efficiency: column(),
  };
  for (let i = 0; i < ROWS; i++) {
    const capacitor_V = Math.max(i * step_V, 1e-6);
    const state = solveLoad(driver, led, capacitor_V, beyond);
    drawn_A[i] = driverCurrent_A(driver.law, capacitor_V, state.output_V, beyond);
    columns.output_V[i] = state.output_V;
    columns.led_A[i] = state.current_A;
    columns.light_lm[i] = state.light_lm;
    columns.efficiency[i] = piecewiseLinear(driver.efficiencyAt_V, driver.efficiency, capacitor_V);
  }
  for (let i = 0; i < ROWS; i++) {
    const near = Math.min(Math.max(i, 1), ROWS - 2);
    columns.slope_S[i] = (drawn_A[near + 1]! - drawn_A[near - 1]!) / (2 * step_V);
    const middle = Math.min(Math.max(i, BEND_REACH), ROWS - 1 - BEND_REACH);
    columns.bend_A_V2[i] =
      (drawn_A[middle + BEND_REACH]! - 2 * drawn_A[middle]! + drawn_A[middle - BEND_REACH]!) /
      (BEND_REACH * step_V) ** 2;
  }
  return columns;
}

/**
 * The steady state of driver and LED at one capacitor voltage. The LED's forward voltage and its current settle each
 * other. A boost whose capacitor reaches its output has none: the last round before stands in, and the run refuses it.
 */
function solveLoad(
  driver: DriverParams,
  led: LedParams,
  capacitor_V: number,
  beyond: boolean,
): LedState & { output_V: number } {
  const law = driver.law;
  const efficiency = piecewiseLinear(driver.efficiencyAt_V, driver.efficiency, capacitor_V);
  const rectifier_V = law.kind === 'boost' ? law.rectifier_V : 0;
  // The highest forward voltage is on the safe side: from there the rounds approach the answer without passing the capacitor.
  let output_V = led.forward_V[led.forward_V.length - 1]! + rectifier_V;
  let state: LedState = { current_A: 0, forward_V: output_V - rectifier_V, light_lm: 0 };
  for (let round = 0; round < 60; round++) {
    const current_A = driverCurrent_A(law, capacitor_V, output_V, beyond);
    if (!Number.isFinite(current_A) || current_A < 0) break;
    state = ledAtPower(led, efficiency * capacitor_V * current_A);
    const next_V = state.forward_V + rectifier_V;
    if (Math.abs(next_V - output_V) < 1e-12) break;
    output_V = next_V;
  }
  return { ...state, output_V };
}
