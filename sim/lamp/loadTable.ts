import { Kept } from '../common/Kept.ts';
import { piecewiseLinear, square } from '../common/numeric.ts';
import type { DriverParams } from './driver/params.ts';
import type { DriverLaw } from './driver/step.ts';
import type { LedParams } from './led/params.ts';
import { type LedState, ledAtPower } from './led/step.ts';

/** What a lit LED draws, takes and gives against the voltage at the driver, in rows of even steps from 0 V. */
export interface LoadTable {
  highest_V: number;
  step_V: number;
  /** Capacitor voltage at which discontinuous conduction ends; Infinity where it never does. */
  dcmBoundary_V: number;
  /** Rows of numbers, see COLUMNS. */
  below: Float64Array;
  /** Under the stated current limit; the same as below where the driver has no boundary. */
  above: Float64Array;
  /** Below: LED forward voltage plus rectifier drop, a value a row. */
  output_V: Float64Array;
}

const ROWS = 1024;
/** Rows to either side over which a second derivative is taken, some 0.05 V: the corners of an LED's table are not its curve. */
const REACH = 12;
/** A row: current drawn and its rise to the next row, its second derivative, light and rise, LED current and rise, efficiency. */
const COLUMNS = 8;

const made = new Kept<LoadTable>();

/**
 * Current drawn, LED current and lumens against the capacitor voltage, solved once and kept for equal driver, LED and
 * range.
 *
 * in: driver; led; highest_V, up to which the table reaches
 * out: the table
 * valid: read as `LitLoad` does, the current is within 1e-7 of the law for an LED of one voltage, light within 2e-5; at
 *   the corners of the tables of LED and efficiency the current within 1e-4, light within 4e-4
 */
export function loadTable(driver: DriverParams, led: LedParams, highest_V: number): LoadTable {
  const { law, efficiencyAt_V, efficiency } = driver;
  return made.of([law, efficiencyAt_V, efficiency, led, highest_V], () => newTable(driver, led, highest_V));
}

function newTable(driver: DriverParams, led: LedParams, highest_V: number): LoadTable {
  const { law } = driver;
  const step_V = highest_V / (ROWS - 1);
  const { rows: below, output_V } = rowsOf(law, driver, led, step_V);
  return {
    highest_V,
    step_V,
    dcmBoundary_V: dcmBoundaryOf(law, output_V, step_V),
    below,
    above: law.limited === undefined ? below : rowsOf(law.limited, driver, led, step_V).rows,
    output_V,
  };
}

function rowsOf(law: DriverLaw, driver: DriverParams, led: LedParams, step_V: number) {
  const rows = new Float64Array(ROWS * COLUMNS);
  const output_V = new Float64Array(ROWS);
  const { rectifier_V } = driver.law;
  const highest_V = led.forward_V[led.forward_V.length - 1]! + rectifier_V;
  let near_V = led.forward_V[0]! + rectifier_V;
  for (let i = 0; i < ROWS; i++) {
    const capacitor_V = Math.max(i * step_V, 1e-6);
    const efficiency = piecewiseLinear(driver.efficiencyAt_V, driver.efficiency, capacitor_V);
    // The row before is near; the highest forward voltage is on the safe side where that may lie below the capacitor.
    const from_V = near_V > capacitor_V + 0.02 ? near_V : highest_V;
    const state = settleLoad(law, rectifier_V, led, capacitor_V, efficiency, from_V);
    near_V = state.output_V;
    const at = i * COLUMNS;
    rows[at] = law.current_A(capacitor_V, state.output_V);
    rows[at + 3] = state.light_lm;
    rows[at + 5] = state.current_A;
    rows[at + 7] = efficiency;
    output_V[i] = state.output_V;
  }
  const drawn_A = (i: number) => rows[i * COLUMNS]!;
  for (let i = 0; i < ROWS; i++) {
    const at = i * COLUMNS;
    const up = i < ROWS - 1 ? at + COLUMNS : at;
    const middle = Math.min(Math.max(i, REACH), ROWS - 1 - REACH);
    rows[at + 2] =
      (drawn_A(middle + REACH) - 2 * drawn_A(middle) + drawn_A(middle - REACH)) / square(REACH * step_V);
    rows[at + 1] = rows[up]! - rows[at]!;
    rows[at + 4] = rows[up + 3]! - rows[at + 3]!;
    rows[at + 6] = rows[up + 5]! - rows[at + 5]!;
  }
  return { rows, output_V };
}

/**
 * The steady state of driver and LED at one capacitor voltage. The LED's forward voltage and its current settle each
 * other, rounds of that being drawn together by Aitken's rule. A boost whose capacitor reaches its output has none: the
 * last round before stands in, and the run refuses it.
 */
function settleLoad(
  law: DriverLaw,
  rectifier_V: number,
  led: LedParams,
  capacitor_V: number,
  efficiency: number,
  from_V: number,
): Pick<LedState, 'current_A' | 'light_lm'> & { output_V: number } {
  let output_V = from_V;
  let last_V = Number.NaN;
  let state: LedState = { current_A: 0, forward_V: output_V - rectifier_V, light_lm: 0 };
  for (let round = 0; round < 60; round++) {
    const current_A = law.current_A(capacitor_V, output_V);
    if (!Number.isFinite(current_A) || current_A < 0) break;
    state = ledAtPower(led, efficiency * capacitor_V * current_A);
    const change_V = state.forward_V + rectifier_V - output_V;
    output_V += change_V;
    if (Math.abs(change_V) < 1e-12) break;
    if (Math.abs(change_V) < 0.9 * Math.abs(last_V)) {
      output_V += (change_V * change_V) / (last_V - change_V);
      last_V = Number.NaN;
    } else last_V = change_V;
  }
  return { current_A: state.current_A, light_lm: state.light_lm, output_V };
}

function dcmBoundaryOf(law: DriverLaw, output_V: Float64Array, step_V: number): number {
  const over = (i: number) => i * step_V - law.dcmBoundary_V(output_V[i]!);
  for (let row = 0; row < ROWS; row++) {
    if (!(over(row) >= 0)) continue;
    return row === 0 ? Number.POSITIVE_INFINITY : (row - over(row) / (over(row) - over(row - 1))) * step_V;
  }
  return Number.POSITIVE_INFINITY;
}

/**
 * Most light that a lit lamp gives with its capacitor anywhere up to a voltage, lumens.
 * in: table; highest_V
 */
export function mostLight_lm({ below, step_V }: LoadTable, highest_V: number): number {
  const rows = Math.min(Math.ceil(highest_V / step_V) + 1, ROWS);
  let most_lm = 0;
  for (let row = 0; row < rows; row++) most_lm = Math.max(most_lm, below[row * COLUMNS + 3]!);
  return most_lm;
}

/** What the lit driver draws and gives at a terminal voltage; the current with its derivatives as fields. */
export class LitLoad {
  /** Share of its current that is drawn: of the time the LED is on, of its pulses while on, or both. */
  share = 1;
  terminal_V = 0;
  current_A = 0;
  slope_S = 0;
  secondDerivative_A_V2 = 0;

  private readonly table: LoadTable;
  private rows: Float64Array;
  private readonly step_V: number;
  private readonly perStep: number;

  constructor(table: LoadTable) {
    this.table = table;
    this.rows = table.below;
    this.step_V = table.step_V;
    this.perStep = 1 / table.step_V;
  }

  /** Chooses the side of the boundary of discontinuous conduction. */
  setAbove(above: boolean): void {
    this.rows = above ? this.table.above : this.table.below;
  }

  /** Sets the current at terminal_V, and its derivatives: beyond the table the end rows' values. */
  read(): void {
    const { rows, share, perStep, step_V } = this;
    const place = placeOf(this.terminal_V * perStep);
    const row = place | 0;
    const part = place - row;
    const i = row * COLUMNS;
    const rise_A = rows[i + 1]!;
    const second = rows[i + 2]!;
    // Between rows a parabola: of the law's bend a straight line would miss 5e-6.
    const bend_A = second * step_V * step_V;
    this.current_A = share * (rows[i]! + part * (rise_A - 0.5 * (1 - part) * bend_A));
    this.slope_S = share * (rise_A + (part - 0.5) * bend_A) * perStep;
    this.secondDerivative_A_V2 = share * second;
  }

  /** Light of the LED while on, lumens. */
  light_lm(terminal_V: number): number {
    return this.valueAt(3, terminal_V);
  }

  /** LED current while on, amperes. */
  led_A(terminal_V: number): number {
    return this.valueAt(5, terminal_V);
  }

  /** Share of the driver's power that reaches the LED. */
  efficiency(terminal_V: number): number {
    return this.rows[(placeOf(terminal_V * this.perStep) | 0) * COLUMNS + 7]!;
  }

  private valueAt(column: number, terminal_V: number): number {
    const place = placeOf(terminal_V * this.perStep);
    const row = place | 0;
    const i = row * COLUMNS + column;
    return this.rows[i]! + (place - row) * this.rows[i + 1]!;
  }
}

/** Within the table: the last row but one has the step to the last. */
function placeOf(place: number): number {
  return place > 0 ? (place < ROWS - 1 ? place : ROWS - 1 - 1e-9) : 0;
}
