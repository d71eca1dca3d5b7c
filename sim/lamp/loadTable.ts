import { piecewiseLinear } from '../common/numeric.ts';
import type { DriverParams } from './driver/params.ts';
import type { DriverLaw } from './driver/step.ts';
import type { LedParams } from './led/params.ts';
import { type LedState, ledAtPower } from './led/step.ts';

/** Driver and LED together under one law, one column a quantity, against the capacitor voltage in even steps from 0 V. */
export interface LoadColumns {
  law: DriverLaw;
  /** LED forward voltage plus rectifier drop. */
  output_V: Float64Array;
  /** Derivatives of the current drawn by the capacitor voltage: they steer the time step. */
  slope_S: Float64Array;
  secondDerivative_A_V2: Float64Array;
  led_A: Float64Array;
  light_lm: Float64Array;
  efficiency: Float64Array;
}

/** What a lit LED draws, takes and gives. */
export interface LoadTable {
  highest_V: number;
  step_V: number;
  /** Capacitor voltage at which discontinuous conduction ends; Infinity where it never does. */
  dcmBoundary_V: number;
  below: LoadColumns;
  /** Under the stated current limit; the same as below where the driver has no boundary. */
  above: LoadColumns;
}

const ROWS = 2048;
/** Rows to either side over which a second derivative is taken, some 0.05 V: the corners of an LED's table are not its curve. */
const REACH = 25;

/**
 * Output voltage, LED current and lumens against the capacitor voltage, solved once for the run.
 *
 * in: driver; led; highest_V, up to which the table reaches
 * out: the table
 * valid: straight lines between rows are within 1e-6 of the law for smooth LEDs; the current drawn is not taken from
 *   this table but from the driver's law
 */
export function loadTable(driver: DriverParams, led: LedParams, highest_V: number): LoadTable {
  const { law } = driver;
  const step_V = highest_V / (ROWS - 1);
  const below = loadColumns(law, driver, led, step_V);
  return {
    highest_V,
    step_V,
    dcmBoundary_V: dcmBoundary_V(below, step_V),
    below,
    above: law.limited === undefined ? below : loadColumns(law.limited, driver, led, step_V),
  };
}

function loadColumns(law: DriverLaw, driver: DriverParams, led: LedParams, step_V: number): LoadColumns {
  const column = () => new Float64Array(ROWS);
  const drawn_A = column();
  const columns: LoadColumns = {
    law,
    output_V: column(),
    slope_S: column(),
    secondDerivative_A_V2: column(),
    led_A: column(),
    light_lm: column(),
    efficiency: column(),
  };
  for (let i = 0; i < ROWS; i++) {
    const capacitor_V = Math.max(i * step_V, 1e-6);
    const efficiency = piecewiseLinear(driver.efficiencyAt_V, driver.efficiency, capacitor_V);
    const { output_V, current_A, light_lm } = solveLoad(
      law,
      driver.law.rectifier_V,
      led,
      capacitor_V,
      efficiency,
    );
    drawn_A[i] = law.current_A(capacitor_V, output_V);
    columns.output_V[i] = output_V;
    columns.led_A[i] = current_A;
    columns.light_lm[i] = light_lm;
    columns.efficiency[i] = efficiency;
  }
  for (let i = 0; i < ROWS; i++) {
    const near = Math.min(Math.max(i, 1), ROWS - 2);
    columns.slope_S[i] = (drawn_A[near + 1]! - drawn_A[near - 1]!) / (2 * step_V);
    const middle = Math.min(Math.max(i, REACH), ROWS - 1 - REACH);
    columns.secondDerivative_A_V2[i] =
      (drawn_A[middle + REACH]! - 2 * drawn_A[middle]! + drawn_A[middle - REACH]!) / (REACH * step_V) ** 2;
  }
  return columns;
}

/**
 * The steady state of driver and LED at one capacitor voltage. The LED's forward voltage and its current settle each
 * other. A boost whose capacitor reaches its output has none: the last round before stands in, and the run refuses it.
 */
function solveLoad(
  law: DriverLaw,
  rectifier_V: number,
  led: LedParams,
  capacitor_V: number,
  efficiency: number,
): LedState & { output_V: number } {
  // The highest forward voltage is on the safe side: from there the rounds approach the answer without passing the capacitor.
  let output_V = led.forward_V[led.forward_V.length - 1]! + rectifier_V;
  let state: LedState = { current_A: 0, forward_V: output_V - rectifier_V, light_lm: 0 };
  for (let round = 0; round < 60; round++) {
    const current_A = law.current_A(capacitor_V, output_V);
    if (!Number.isFinite(current_A) || current_A < 0) break;
    state = ledAtPower(led, efficiency * capacitor_V * current_A);
    const next_V = state.forward_V + rectifier_V;
    if (Math.abs(next_V - output_V) < 1e-12) break;
    output_V = next_V;
  }
  return { ...state, output_V };
}

function dcmBoundary_V({ law, output_V }: LoadColumns, step_V: number): number {
  const over = (i: number) => i * step_V - law.dcmBoundary_V(output_V[i]!);
  const row = output_V.findIndex((_, i) => over(i) >= 0);
  if (row <= 0) return Number.POSITIVE_INFINITY;
  return (row - over(row) / (over(row) - over(row - 1))) * step_V;
}

/**
 * What the lit driver draws at a terminal voltage, with its derivatives, for the hourly loop: `at_V` sets the fields,
 * so that nothing is allocated.
 */
export class LoadDraw {
  current_A = 0;
  slope_S = 0;
  secondDerivative_A_V2 = 0;
  /** The columns that hold: below or above the boundary of discontinuous conduction. */
  columns: LoadColumns;

  private readonly table: LoadTable;
  private readonly perStep: number;

  constructor(table: LoadTable) {
    this.table = table;
    this.columns = table.below;
    this.perStep = 1 / table.step_V;
  }

  /** Chooses the side of the boundary of discontinuous conduction. */
  setAbove(above: boolean): void {
    this.columns = above ? this.table.above : this.table.below;
  }

  /**
   * Sets current and derivatives.
   * in: terminal_V, above 0; share of the time the LED is on
   */
  at_V(terminal_V: number, share: number): void {
    const { columns } = this;
    const { law } = columns;
    const { exponent } = law;
    if (!Number.isNaN(exponent) && terminal_V > 0) {
      this.current_A = share * law.current_A(terminal_V, 0);
      this.slope_S = (exponent * this.current_A) / terminal_V;
      this.secondDerivative_A_V2 = ((exponent - 1) * this.slope_S) / terminal_V;
      return;
    }
    this.current_A = share * law.current_A(terminal_V, this.at(columns.output_V, terminal_V));
    this.slope_S = share * this.at(columns.slope_S, terminal_V);
    this.secondDerivative_A_V2 = share * this.at(columns.secondDerivative_A_V2, terminal_V);
  }

  /** Value of a column of the load table at a terminal voltage; the end values beyond the table. */
  at(column: Float64Array, terminal_V: number): number {
    const place = terminal_V * this.perStep;
    const last = column.length - 1;
    if (!(place > 0)) return column[0]!;
    if (place >= last) return column[last]!;
    const low = place | 0;
    return column[low]! + (column[low + 1]! - column[low]!) * (place - low);
  }
}
