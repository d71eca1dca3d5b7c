import { thermalVoltage_V } from '../common/constants.ts';
import { exp } from '../common/elementary/exp.ts';
import type { CellParams } from './cell/params.ts';
import { SingleDiodeCurve } from './cell/SingleDiode.ts';
import { cellPhotocurrent_A, cellSaturation_A, cellThermal_V } from './cell/step.ts';
import type { DiodeParams } from './diode/params.ts';
import { diodeLeak_S, diodeSaturation_A, junctionDrop_V } from './diode/step.ts';

/**
 * Cell and blocking diode in series, in one light and at one temperature: how much current reaches the capacitor.
 *
 * The cell is dragged to the capacitor's voltage plus the diode's drop. With the diode's junction voltage v as the
 * unknown everything else is explicit: the diode's current i(v), the cell's junction voltage
 * u = capacitor + v + (cell and diode resistance) i(v), and the cell's current f(u); the root of f(u) - i(v) is unique,
 * and since f falls and bends down while i rises and bends up, Newton from the right never overshoots.
 *
 * Set `setConditions`, then `solve`; the results are fields, so that the hourly loop allocates nothing.
 * source: DeSoto2006 (single diode with series and shunt resistance), Shockley1949
 */
export class CellDiodeCircuit extends SingleDiodeCurve {
  readonly cell: CellParams;
  readonly diode: DiodeParams;
  readonly cellSeries_ohm: number;
  readonly diodeSeries_ohm: number;
  diodeSaturation_A = 0;
  diodeThermal_V = 1;
  diodeLeak_S = 0;
  readonly isSwitch: boolean;
  readonly diodeOn_S: number;
  /** Open-circuit voltage of the cell in this light; 0 in the dark. */
  openCircuit_V = 0;

  /** Results of solve: diode junction voltage, current into the capacitor, its slope against the capacitor's voltage. */
  junction_V = 0;
  current_A = 0;
  slope_S = 0;

  /** How steeply the cell's current falls with its junction voltage at open circuit. */
  openSlope_S = 0;

  #temperature_degC = Number.NaN;
  /** Junction voltage of the best point over the open-circuit voltage, from the last light: a start for the next. */
  #bestShare = 0.85;

  constructor(cell: CellParams, diode: DiodeParams) {
    super(1 / cell.shunt_ohm);
    this.cell = cell;
    this.diode = diode;
    this.cellSeries_ohm = cell.series_ohm;
    this.diodeSeries_ohm = diode.series_ohm;
    this.isSwitch = diode.kind === 'switch';
    this.diodeOn_S = this.isSwitch ? 1 / diode.on_ohm : 0;
  }

  /**
   * Sets light and temperature.
   * in: light_W_m2 on the cell, 0 or more; temperature_degC of cell and diode
   */
  setConditions(light_W_m2: number, temperature_degC: number): void {
    if (temperature_degC !== this.#temperature_degC) {
      this.#temperature_degC = temperature_degC;
      this.thermal_V = cellThermal_V(this.cell, temperature_degC);
      this.saturation_A = cellSaturation_A(this.cell, temperature_degC);
      this.diodeSaturation_A = diodeSaturation_A(this.diode, temperature_degC);
      this.diodeThermal_V = this.diode.ideality * thermalVoltage_V(temperature_degC);
      this.diodeLeak_S = this.diode.leak_S === 0 ? 0 : diodeLeak_S(this.diode, temperature_degC);
    }
    this.photocurrent_A = light_W_m2 > 0 ? cellPhotocurrent_A(this.cell, light_W_m2, temperature_degC) : 0;
    if (light_W_m2 > 0) {
      this.openCircuit_V = this.junctionAtCurrent_V(0);
      this.openSlope_S = this.cellFall_S;
    } else {
      this.openCircuit_V = 0;
    }
  }

  /**
   * Current into the capacitor at a capacitor voltage, and its slope, into the fields junction_V, current_A and slope_S.
   *
   * in: capacitor_V at the capacitor's terminals; series_ohm, further resistance on the way (0 by default)
   * out: the current, amperes; negative where the capacitor feeds the dark cell through the diode's leakage
   * throws: Error where no root is found (a defect)
   */
  solve(capacitor_V: number, series_ohm = 0): number {
    const ohm = this.cellSeries_ohm + this.diodeSeries_ohm + series_ohm;
    let v = this.startingJunction_V(capacitor_V, ohm);
    // Both diodes reversed, the curve is nearly flat on one side of a sharp knee: Newton then jumps to and fro over it.
    let low = Number.NEGATIVE_INFINITY;
    let high = Math.max(v, 0);
    for (let round = 0; round < 200; round++) {
      this.#diodeCurrent(v);
      const i = this.current_A;
      const g = this.slope_S;
      this.at(capacitor_V + v + ohm * i);
      const off = this.cell_A - i;
      const fall = this.cellFall_S;
      const steepness = fall * (1 + ohm * g) + g;
      if (off > 0) low = v;
      else high = v;
      const next = v + off / steepness;
      const change = (next <= high && next >= low ? next : (low + high) / 2) - v;
      v += change;
      if (Math.abs(change) < 1e-9) {
        this.junction_V = v;
        this.current_A = i + g * change;
        this.slope_S = (-g * fall) / steepness;
        return this.current_A;
      }
    }
    throw new Error(`no current found at ${capacitor_V} V, ${this.photocurrent_A} A of photocurrent`);
  }

  /** A junction voltage right of the root, or within a saturation current of it. */
  startingJunction_V(capacitor_V: number, ohm = this.cellSeries_ohm + this.diodeSeries_ohm): number {
    const spare_V = this.openCircuit_V - capacitor_V;
    if (spare_V <= 0) return spare_V;
    const most_A = Math.min(this.photocurrent_A - capacitor_V * this.shunt_S, spare_V / ohm);
    return Math.min(spare_V, this.#forward_V(most_A));
  }

  /** Voltage of the diode's junction at a forward current, its leakage left out: the inverse of diodeCurrent. */
  #forward_V(current_A: number): number {
    return this.isSwitch
      ? current_A / this.diodeOn_S
      : junctionDrop_V(current_A, this.diodeSaturation_A, this.diodeThermal_V);
  }

  /** Diode current and its slope at a junction voltage, into current_A and slope_S. */
  #diodeCurrent(v: number): void {
    if (this.isSwitch) {
      const s = v > 0 ? this.diodeOn_S : this.diodeLeak_S;
      this.current_A = s * v;
      this.slope_S = s === 0 ? 1e-15 : s;
      return;
    }
    const x = v / this.diodeThermal_V;
    const e = x < -40 ? 0 : this.diodeSaturation_A * exp(x);
    this.current_A = e - this.diodeSaturation_A + this.diodeLeak_S * v;
    this.slope_S = e / this.diodeThermal_V + this.diodeLeak_S + 1e-18;
  }

  /**
   * The capacitor voltage, volts, at which the current into the capacitor has fallen to a given drain: the reachable voltage in this
   * light. 0 where the cell cannot give that much at any voltage.
   *
   * in: drain_A, 0 or more
   */
  reachable_V(drain_A: number): number {
    if (this.photocurrent_A <= drain_A) return 0;
    // Where the drain is a thousandth of the light, the cell's curve is a straight line from open circuit.
    const u =
      drain_A < 1e-3 * this.photocurrent_A
        ? this.openCircuit_V - drain_A / this.openSlope_S
        : this.junctionAtCurrent_V(drain_A);
    return Math.max(0, u - this.#forward_V(drain_A) - (this.cellSeries_ohm + this.diodeSeries_ohm) * drain_A);
  }

  /**
   * Most power the cell can give in this light, watts, at its best point; the cell's voltage there goes to best_V.
   * out: watts; 0 in the dark
   */
  bestPower_W(): number {
    if (this.photocurrent_A <= 0) {
      this.best_V = 0;
      return 0;
    }
    const rs = this.cellSeries_ohm;
    // Where f is the current and f' its slope against the junction voltage u, power (u - f rs) f is greatest at
    // f + f' (u - 2 f rs) = 0.
    // Power rises to its one best point and falls after it: a step that leaves the bracket is halved instead.
    let low = 0;
    let high = this.openCircuit_V;
    let u = high * this.#bestShare;
    let current = 0;
    for (let round = 0; round < 60; round++) {
      this.at(u);
      current = this.cell_A;
      const fall = -this.cellFall_S;
      const lever = u - 2 * current * rs;
      const slope = current + fall * lever;
      if (slope > 0) low = u;
      else high = u;
      const next = u - slope / (2 * fall - 2 * fall * fall * rs - this.cellBend_A_V2 * lever);
      const change = (next > low && next < high ? next : (low + high) / 2) - u;
      u += change;
      // Power is flat at its best point: what is left of the change costs its square.
      if (Math.abs(change) < 1e-4) break;
    }
    this.#bestShare = u / this.openCircuit_V;
    this.best_V = u - current * rs;
    return current * this.best_V;
  }

  /** Voltage of the cell at its best point, after bestPower_W. */
  best_V = 0;
}
