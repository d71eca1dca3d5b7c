import { CellDiodeCircuit } from '../lamp/CellDiodeCircuit.ts';
import { capacitorEnergy_J } from '../lamp/capacitor/step.ts';
import type { LampStepper } from './LampStepper.ts';
import type { NightRecorder } from './NightRecorder.ts';
import { emptyYearColumns, type YearColumns } from './YearColumns.ts';
import type { YearInput } from './YearRun.ts';

/** Half the distance between Gauss's two points, as a share of the interval. */
const GAUSS = 0.5 / Math.sqrt(3);

/**
 * The energy ledger of a pass, by the hour. Each loss is integrated on its own: the cell's energy by the cell's law at
 * the currents of the step's start, middle and end, the diode's by the diode's, leakage, limiter, standby and load from
 * their own currents; what does not add up stands in the residual. The charge that came in is what moved the branches
 * and what drained, so that charge closes to rounding.
 *
 * What moves the main branch is weighed along its charge, what drains along time, both by Simpson's rule.
 */
export class HourLedger {
  readonly columns: YearColumns;
  private readonly lamp: LampStepper;
  private readonly input: YearInput;
  private readonly circuit: CellDiodeCircuit;
  private hour = 0;
  /** Best point of the cell in this hour; no power in the dark. */
  private bestPower_W = 0;
  private best_V = 0;
  private cell_J = 0;
  private diode_J = 0;
  private resistance_J = 0;
  private driver_J = 0;

  constructor(lamp: LampStepper, input: YearInput) {
    this.lamp = lamp;
    this.input = input;
    this.columns = emptyYearColumns(input.count);
    this.circuit = new CellDiodeCircuit(lamp.lamp.cell, lamp.lamp.diode);
  }

  beginHour(hour: number): void {
    const { lamp, input, columns, circuit } = this;
    this.hour = hour;
    const light_W_m2 = input.light_W_m2[hour]!;
    columns.jar_degC[hour] = input.jar_degC[hour]!;
    if (columns.capacitorLowest_V[hour] === 0) columns.capacitorLowest_V[hour] = lamp.main_V;
    this.bestPower_W = 0;
    if (!(light_W_m2 > 0)) return;
    const { curve, drains } = lamp;
    circuit.photocurrent_A = curve.photocurrent_A;
    circuit.saturation_A = curve.cellSaturation_A;
    circuit.thermal_V = curve.cellThermal_V;
    circuit.diodeSaturation_A = curve.reverse_A;
    circuit.diodeThermal_V = curve.diodeThermal_V;
    circuit.openCircuit_V = circuit.junctionAtCurrent_V(0);
    circuit.openSlope_S = circuit.cellFall_S;
    this.bestPower_W = circuit.bestPower_W();
    this.best_V = circuit.best_V;
    // The leakage there is part of what holds the voltage down; two rounds settle it to microvolts.
    let reachable_V = circuit.openCircuit_V;
    for (let round = 0; round < 2; round++) {
      drains.at(reachable_V);
      reachable_V = circuit.reachable_V(drains.leak_A + lamp.lamp.driver.standby_A);
    }
    columns.reachable_V[hour] = reachable_V;
  }

  endHour(): void {
    this.columns.capacitorEnd_V[this.hour] = this.lamp.main_V;
  }

  /** Adds the tried step to its hour. */
  take(): void {
    const { lamp, columns, hour } = this;
    const { drains, main_V: from_V, end_V: to_V, rise_V, step_s: h } = lamp;
    const { capacitor } = lamp.lamp;
    const { startLoad_A, middleLoad_A, endLoad_A } = lamp;
    const { junction_V } = lamp.curve;
    lamp.average();
    const { mean_V, spread_V2 } = lamp;
    drains.at(mean_V);
    const leak_C = h * (drains.leak_A + 0.5 * drains.leakSecond * spread_V2);
    const bleed_C = h * drains.bleed_A;
    const standby_C = h * drains.standbyNow_A;
    const leak_J = mean_V * leak_C + h * drains.leakSlope * spread_V2;
    const bleed_J = mean_V * bleed_C + h * drains.bleedSlope * spread_V2;
    const standby_J = mean_V * standby_C;
    const delayed_C = lamp.delayed.one.charge_C + lamp.delayed.two.charge_C;
    const moved_C = rise_V * (capacitor.capacitance_F + capacitor.rise_F_V * (from_V + 0.5 * rise_V));
    const drained_C = leak_C + bleed_C + standby_C + delayed_C;
    const heat_J = lamp.delayed.heat_J();
    const delayedStored_J = lamp.delayed.stored_J();
    const stored_J =
      capacitorEnergy_J(capacitor, to_V) - capacitorEnergy_J(capacitor, from_V) + delayedStored_J;
    let load_C = lamp.lit ? (h / 6) * (startLoad_A + 4 * middleLoad_A + endLoad_A) : 0;
    let in_C = moved_C + drained_C + load_C;
    if (lamp.charging)
      this.chargeThroughCell(in_C, moved_C, drained_C, delayed_C, heat_J + delayedStored_J, mean_V);
    else {
      if (lamp.lit) {
        in_C = h * lamp.currentAt_A(lamp.middle_V);
        load_C = in_C - moved_C - drained_C;
      }
      this.blockedCell(in_C, moved_C, drained_C);
    }
    const load_J = lamp.lit ? this.loadEnergy_J(h) : 0;
    const led_J = lamp.lit ? load_J * lamp.load.efficiency(lamp.terminal_V) : 0;
    this.driver_J = load_J - led_J;
    const lost_J = this.diode_J + this.resistance_J + heat_J + leak_J + bleed_J + standby_J + this.driver_J;
    columns.chargeIn_C[hour]! += in_C;
    columns.chargeOut_C[hour]! += leak_C + bleed_C + standby_C + load_C;
    columns.cell_J[hour]! += this.cell_J;
    columns.diodeLoss_J[hour]! += this.diode_J;
    columns.resistanceLoss_J[hour]! += this.resistance_J;
    columns.delayedBranchLoss_J[hour]! += heat_J;
    columns.leakage_J[hour]! += leak_J;
    columns.standby_J[hour]! += standby_J;
    columns.storedChange_J[hour]! += stored_J;
    columns.residual_J[hour]! += this.cell_J - lost_J - led_J - stored_J;
    if (bleed_J !== 0) columns.limiter_J[hour]! += bleed_J;
    if (lamp.lit) {
      columns.driverLoss_J[hour]! += this.driver_J;
      columns.led_J[hour]! += led_J;
      columns.shining_s[hour]! += h;
    }
    if (this.bestPower_W > 0) this.takeUnharvested(h, in_C);
    const lower_V = Math.min(from_V, to_V);
    if (lower_V < columns.capacitorLowest_V[hour]!) columns.capacitorLowest_V[hour] = lower_V;
    // The next look begins where it would without a ledger: the same run, bit for bit.
    lamp.curve.junction_V = junction_V;
  }

  /** Adds what the nights noted of the same step. */
  takeLight(recorder: NightRecorder): void {
    const { columns, hour } = this;
    if (recorder.light_lm_s !== 0) columns.light_lm_h[hour]! += recorder.light_lm_s / 3600;
    if (recorder.aboveRated_s !== 0) columns.aboveRated_s[hour]! += recorder.aboveRated_s;
    if (recorder.promised) {
      columns.promised_s[hour]! += recorder.lit_s + recorder.short_s;
      columns.lit_s[hour]! += recorder.lit_s;
      columns.short_s[hour]! += recorder.short_s;
    }
  }

  private takeUnharvested(h: number, in_C: number): void {
    const { columns, hour } = this;
    const best_J = this.bestPower_W * h;
    columns.cellBest_J[hour]! += best_J;
    const cell_V = in_C === 0 ? this.best_V : this.cell_J / in_C;
    if (cell_V < this.best_V) columns.unharvestedLow_J[hour]! += best_J - this.cell_J;
    else columns.unharvestedHigh_J[hour]! += best_J - this.cell_J;
  }

  /** Driver's energy over the step, by Simpson's rule; sets the LED's charge. */
  private loadEnergy_J(h: number): number {
    const { lamp, columns, hour } = this;
    const { load } = lamp;
    const { startLoad_A, middleLoad_A, endLoad_A, startTerminal_V: start_V } = lamp;
    const ohm = lamp.lamp.capacitor.series_ohm;
    const middle_V = lamp.middle_V + ohm * (lamp.currentAt_A(lamp.middle_V) - middleLoad_A);
    columns.led_C[hour]! +=
      (lamp.share * h * (load.led_A(start_V) + 4 * load.led_A(middle_V) + load.led_A(lamp.terminal_V))) / 6;
    return (h / 6) * (startLoad_A * start_V + 4 * middleLoad_A * middle_V + endLoad_A * lamp.terminal_V);
  }

  private cellAt_V = 0;
  private diodeAt_V = 0;
  private chainAt(current_A: number, main_V: number, load_A: number): void {
    const { lamp } = this;
    const { curve } = lamp;
    const { cell, diode, capacitor } = lamp.lamp;
    const junction = curve.diodeJunction_V(current_A, curve.junction_V);
    this.diodeAt_V = junction + diode.series_ohm * current_A;
    const guess_V =
      main_V + capacitor.series_ohm * (current_A - load_A) + this.diodeAt_V + cell.series_ohm * current_A;
    this.cellAt_V = curve.cellJunction_V(current_A, guess_V) - cell.series_ohm * current_A;
  }

  private chargeThroughCell(
    in_C: number,
    moved_C: number,
    drained_C: number,
    delayed_C: number,
    delayed_J: number,
    mean_V: number,
  ): void {
    const { lamp } = this;
    const { capacitance_F: c0, rise_F_V: c1, series_ohm: ohm } = lamp.lamp.capacitor;
    const { main_V: from_V, rise_V } = lamp;
    // Gauss's two points along the charge that moves the main branch; what drains is weighed by time, at the mean voltage.
    const half_V = from_V + 0.5 * rise_V;
    const early_V = half_V - GAUSS * rise_V;
    const late_V = half_V + GAUSS * rise_V;
    const early_A = lamp.currentAt_A(early_V);
    this.chainAt(early_A, early_V, lamp.middleLoad_A);
    const u1 = this.cellAt_V;
    const d1 = this.diodeAt_V;
    const late_A = lamp.currentAt_A(late_V);
    this.chainAt(late_A, late_V, lamp.middleLoad_A);
    const u2 = this.cellAt_V;
    const d2 = this.diodeAt_V;
    const part = rise_V === 0 ? 0.5 : (mean_V - early_V) / (late_V - early_V);
    const ut = u1 + part * (u2 - u1);
    const dt = d1 + part * (d2 - d1);
    const mean_A = early_A + part * (late_A - early_A);
    const w1 = 0.5 * (c0 + c1 * early_V) * rise_V;
    const w2 = 0.5 * (c0 + c1 * late_V) * rise_V;
    const drain_C = in_C - moved_C;
    this.cell_J = w1 * u1 + w2 * u2 + (drain_C - delayed_C) * ut + delayed_J + delayed_C * (ut - mean_V);
    this.diode_J = w1 * d1 + w2 * d2 + drain_C * dt;
    this.resistance_J =
      ohm *
      (w1 * (early_A - lamp.middleLoad_A) +
        w2 * (late_A - lamp.middleLoad_A) +
        drained_C * (mean_A - lamp.middleLoad_A));
  }

  /** What flows back through a blocked diode, and the series resistance between capacitor and driver. */
  private blockedCell(in_C: number, moved_C: number, drained_C: number): void {
    const { lamp } = this;
    const ohm = lamp.lamp.capacitor.series_ohm;
    const { startLoad_A, middleLoad_A, endLoad_A } = lamp;
    const through = (-1 / 6) * (startLoad_A + 4 * middleLoad_A + endLoad_A);
    const terminal_V = lamp.middle_V - ohm * middleLoad_A;
    this.cell_J = in_C * lamp.curve.highest_V;
    this.diode_J = -in_C * (terminal_V - lamp.curve.highest_V);
    this.resistance_J = ohm * (moved_C + drained_C) * through;
    if (lamp.lit) {
      const h = lamp.step_s;
      this.resistance_J = (ohm * h * (startLoad_A ** 2 + 4 * middleLoad_A ** 2 + endLoad_A ** 2)) / 6;
    }
  }
}
