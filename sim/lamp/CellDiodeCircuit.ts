import { KELVIN_AT_ZERO_CELSIUS, THERMAL_VOLTAGE_V_PER_K } from '../common/constants.ts';
import { quickExp } from '../common/quickExp.ts';
import type { CellParams } from './cell/params.ts';
import { cellPhotocurrent_A, cellSaturation_A, cellThermal_V } from './cell/step.ts';
import type { DiodeParams } from './diode/params.ts';
import { diodeLeak_S, diodeSaturation_A } from './diode/step.ts';

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
export class CellDiodeCircuit {
  readonly cell: CellParams;
  readonly diode: DiodeParams;
  /** Photocurrent in this light. */
  photocurrent_A = 0;
  saturation_A = 0;
  /** Ideality times junctions times kT/q. */
  thermal_V = 1;
  readonly shunt_S: number;
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
  #slopeAtJunction_S = 0;
  /** Junction voltage of the best point over the open-circuit voltage, from the last light: a start for the next. */
  #bestShare = 0.85;

  constructor(cell: CellParams, diode: DiodeParams) {
    this.cell = cell;
    this.diode = diode;
    this.shunt_S = 1 / cell.shunt_ohm;
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
      this.diodeThermal_V =
        this.diode.ideality * THERMAL_VOLTAGE_V_PER_K * (temperature_degC + KELVIN_AT_ZERO_CELSIUS);
      this.diodeLeak_S = this.diode.leak_S === 0 ? 0 : diodeLeak_S(this.diode, temperature_degC);
    }
    this.photocurrent_A = light_W_m2 > 0 ? cellPhotocurrent_A(this.cell, light_W_m2, temperature_degC) : 0;
    if (light_W_m2 > 0) {
      this.openCircuit_V = this.junctionAtCurrent_V(0);
      this.openSlope_S = this.#slopeAtJunction_S;
    } else {
      this.openCircuit_V = 0;
    }
  }

  /**
   * Voltage of the cell's junction, volts, where the cell gives a current.
   * in: current_A, at most the photocurrent
   */
  junctionAtCurrent_V(current_A: number): number {
    const surplus_A = this.photocurrent_A - current_A;
    // Right of the root on both counts: as if there were no shunt, and as if there were no junction.
    let u = Math.min(
      this.thermal_V * Math.log1p(surplus_A / this.saturation_A),
      surplus_A * this.cell.shunt_ohm,
    );
    const a = this.thermal_V;
    for (let i = 0; i < 60; i++) {
      const e = this.saturation_A * quickExp(u / a);
      const off = surplus_A - (e - this.saturation_A) - u * this.shunt_S;
      const fall = e / a + this.shunt_S;
      // Halley's correction: the error cubes, so that a small change is the last.
      const change = off / (fall + (0.5 * off * e) / (a * a * fall));
      u += change;
      if (Math.abs(change) < 1e-4) {
        this.#slopeAtJunction_S = fall - (e / (a * a)) * -change;
        break;
      }
    }
    return u;
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
    const a = this.thermal_V;
    const isat = this.saturation_A;
    let v = this.startingJunction_V(capacitor_V, ohm);
    // Both diodes reversed, the curve is nearly flat on one side of a sharp knee: Newton then jumps to and fro over it.
    let low = Number.NEGATIVE_INFINITY;
    let high = Math.max(v, 0);
    for (let round = 0; round < 200; round++) {
      this.#diodeCurrent(v);
      const i = this.current_A;
      const g = this.slope_S;
      const u = capacitor_V + v + ohm * i;
      const e = isat * quickExp(u / a);
      const off = this.photocurrent_A - (e - isat) - u * this.shunt_S - i;
      const fall = e / a + this.shunt_S;
      const bend = fall * (1 + ohm * g) + g;
      if (off > 0) low = v;
      else high = v;
      const next = v + off / bend;
      const change = (next <= high && next >= low ? next : (low + high) / 2) - v;
      v += change;
      if (Math.abs(change) < 1e-9) {
        this.junction_V = v;
        this.current_A = i + g * change;
        this.slope_S = (-g * fall) / bend;
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
    const forward_V = this.isSwitch
      ? most_A / this.diodeOn_S
      : this.diodeThermal_V * Math.log1p(most_A / this.diodeSaturation_A);
    return Math.min(spare_V, forward_V);
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
    const e = x < -40 ? 0 : this.diodeSaturation_A * quickExp(x);
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
    const v = this.isSwitch
      ? drain_A / this.diodeOn_S
      : this.diodeThermal_V * Math.log1p(drain_A / this.diodeSaturation_A);
    return Math.max(0, u - v - (this.cellSeries_ohm + this.diodeSeries_ohm) * drain_A);
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
    const a = this.thermal_V;
    const rs = this.cellSeries_ohm;
    // Where f is the current and f' its slope against the junction voltage u, power (u - f rs) f is greatest at
    // f + f' (u - 2 f rs) = 0.
    // Power rises to its one best point and falls after it: a step that leaves the bracket is halved instead.
    let low = 0;
    let high = this.openCircuit_V;
    let u = high * this.#bestShare;
    let current = 0;
    for (let round = 0; round < 60; round++) {
      const e = this.saturation_A * quickExp(u / a);
      current = this.photocurrent_A - (e - this.saturation_A) - u * this.shunt_S;
      const fall = -(e / a) - this.shunt_S;
      const bend = -e / (a * a);
      const lever = u - 2 * current * rs;
      const slope = current + fall * lever;
      if (slope > 0) low = u;
      else high = u;
      const next = u - slope / (2 * fall - 2 * fall * fall * rs + bend * lever);
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
