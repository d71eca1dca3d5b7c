import { square } from '../common/numeric.ts';
import { capacitorEnergy_J } from '../lamp/capacitor/step.ts';
import { averageStep } from './averageStep.ts';
import type { HourLimits } from './hourLimits.ts';
import type { LampStepper } from './LampStepper.ts';
import type { NightRecorder } from './NightRecorder.ts';
import type { Sum } from './RepeatedCycle.ts';
import { emptyYearColumns, YEAR_COLUMNS, type YearColumns } from './YearColumns.ts';
import type { YearInput } from './YearRun.ts';

/** Half the distance between Gauss's two points, as a share of the interval. */
const GAUSS = 0.5 / Math.sqrt(3);
/** A step less stiff than this changes slowly. */
const SLOW = 1.8;
/** What an hour is at, rather than what comes together in it. */
const STATES: ReadonlySet<string> = new Set([
  'jar_degC',
  'reachable_V',
  'capacitorEnd_V',
  'capacitorLowest_V',
]);

/**
 * The energy ledger of a pass, by the hour. Each loss is integrated on its own: the cell's energy by the cell's law at
 * the currents along the step, the diode's by the diode's, leakage, limiter, standby and load from their own currents;
 * what does not add up stands in the residual. The charge that came in is what moved the branches and what drained, so
 * that charge closes to rounding.
 *
 * What moves the main branch is weighed along its charge, by Gauss's two points; what drains along time, at the mean.
 */
export class HourLedger {
  readonly columns: YearColumns;
  private readonly lamp: LampStepper;
  private readonly input: YearInput;
  private readonly limits: HourLimits;
  private hour = 0;
  /** Of the step that is being taken. */
  private cell_J = 0;
  private diode_J = 0;
  private load_C = 0;
  private resistance_J = 0;
  private cellAt_V = 0;
  private diodeAt_V = 0;
  /** Current and voltage of the cell at two points of the step. */
  private early_A = 0;
  private earlyCell_V = 0;
  private late_A = 0;
  private lateCell_V = 0;

  constructor(lamp: LampStepper, input: YearInput, limits: HourLimits) {
    this.lamp = lamp;
    this.input = input;
    this.limits = limits;
    this.columns = { ...emptyYearColumns(input.count), reachable_V: limits.reachable_V };
  }

  beginHour(hour: number): void {
    const { columns } = this;
    this.hour = hour;
    columns.jar_degC[hour] = this.input.jar_degC[hour]!;
    if (columns.capacitorLowest_V[hour] === 0) columns.capacitorLowest_V[hour] = this.lamp.main_V;
  }

  endHour(): void {
    this.columns.capacitorEnd_V[this.hour] = this.lamp.main_V;
  }

  /** What the steps of this hour are added to. */
  sums(): Sum[] {
    const { columns, hour: at } = this;
    return YEAR_COLUMNS.filter((name) => !STATES.has(name)).map((name) => ({ column: columns[name], at }));
  }

  /** Adds charge to what was drawn in this hour, coulombs. */
  takeCharge(charge_C: number): void {
    this.columns.chargeOut_C[this.hour]! += charge_C;
  }

  /** Adds the tried step to its hour. */
  take(): void {
    const { lamp, columns, hour } = this;
    const { drains, delayed, main_V: from_V, end_V: to_V, rise_V, step_s: h } = lamp;
    const { capacitor } = lamp.lamp;
    const { junction_V } = lamp.curve;
    averageStep(lamp);
    const { mean_V, spread_V2 } = lamp;
    drains.at(mean_V);
    const leak_C = h * (drains.leak_A + 0.5 * drains.leakSecond * spread_V2);
    const bleed_C = h * drains.bleed_A;
    const standby_C = h * drains.standbyNow_A;
    const leak_J = mean_V * leak_C + h * drains.leakSlope * spread_V2;
    const bleed_J = mean_V * bleed_C + h * drains.bleedSlope * spread_V2;
    const standby_J = mean_V * standby_C + h * drains.standbySlope * spread_V2;
    const delayed_C = delayed.one.charge_C + delayed.two.charge_C;
    const moved_C = rise_V * (capacitor.capacitance_F + capacitor.rise_F_V * (from_V + 0.5 * rise_V));
    const drained_C = leak_C + bleed_C + standby_C + delayed_C;
    const heat_J = delayed.heat_J();
    const delayedStored_J = delayed.stored_J();
    const stored_J =
      capacitorEnergy_J(capacitor, to_V) - capacitorEnergy_J(capacitor, from_V) + delayedStored_J;
    const load_J = lamp.lit ? this.takeLoad() : 0;
    let load_C = lamp.lit ? this.load_C : 0;
    let in_C = moved_C + drained_C + load_C;
    if (lamp.charging && lamp.lit && lamp.stiff < SLOW) {
      in_C = this.chargeWhileLit();
      load_C = in_C - moved_C - drained_C;
    } else if (lamp.charging) {
      this.chargeThroughCell(in_C, moved_C, drained_C, delayed_C, heat_J + delayedStored_J);
    } else {
      if (lamp.lit) {
        in_C = h * lamp.currentAt_A(lamp.middle_V);
        load_C = in_C - moved_C - drained_C;
      }
      this.blockedCell(in_C, moved_C + drained_C);
    }
    columns.chargeIn_C[hour]! += in_C;
    columns.chargeOut_C[hour]! += leak_C + bleed_C + standby_C + load_C;
    columns.cell_J[hour]! += this.cell_J;
    columns.diodeLoss_J[hour]! += this.diode_J;
    columns.resistanceLoss_J[hour]! += this.resistance_J;
    columns.delayedBranchLoss_J[hour]! += heat_J;
    columns.leakage_J[hour]! += leak_J;
    columns.standby_J[hour]! += standby_J;
    columns.storedChange_J[hour]! += stored_J;
    columns.residual_J[hour]! +=
      this.cell_J -
      (this.diode_J + this.resistance_J + heat_J + leak_J + bleed_J + standby_J + load_J) -
      stored_J;
    if (bleed_J !== 0) columns.limiter_J[hour]! += bleed_J;
    if (this.limits.bestPower_W[hour]! > 0) this.takeUnharvested(h);
    const lower_V = Math.min(from_V, to_V);
    if (lower_V < columns.capacitorLowest_V[hour]!) columns.capacitorLowest_V[hour] = lower_V;
    // The next look begins where it would without a ledger: the same run, bit for bit.
    lamp.curve.junction_V = junction_V;
  }

  /** Adds what the nights noted of the same step. */
  takeLight(recorder: NightRecorder): void {
    const { columns, hour, lamp } = this;
    if (lamp.ready) columns.shining_s[hour]! += lamp.step_s;
    if (recorder.light_lm_s !== 0) columns.light_lm_h[hour]! += recorder.light_lm_s / 3600;
    if (recorder.aboveRated_s !== 0) columns.aboveRated_s[hour]! += recorder.aboveRated_s;
    if (recorder.promised) {
      const { lit_s, dim_s, out_s } = recorder;
      columns.promised_s[hour]! += lit_s + dim_s + out_s;
      columns.lit_s[hour]! += lit_s;
      columns.short_s[hour]! += dim_s + out_s;
      columns.dim_s[hour]! += dim_s;
      columns.out_s[hour]! += out_s;
    }
  }

  /** What the cell kept is weighed at the step's two points; it counts as low where its voltage lies below the best. */
  private takeUnharvested(h: number): void {
    const { columns, hour, limits } = this;
    const best_J = limits.bestPower_W[hour]! * h;
    const kept_J = best_J - this.cell_J;
    columns.cellBest_J[hour]! += best_J;
    const best_W = limits.bestPower_W[hour]!;
    const early_W = Math.max(best_W - this.early_A * this.earlyCell_V, 0);
    const late_W = Math.max(best_W - this.late_A * this.lateCell_V, 0);
    const low_W =
      (this.earlyCell_V < limits.best_V[hour]! ? early_W : 0) +
      (this.lateCell_V < limits.best_V[hour]! ? late_W : 0);
    const low_J = early_W + late_W > 0 ? (kept_J * low_W) / (early_W + late_W) : 0;
    columns.unharvestedLow_J[hour]! += low_J;
    columns.unharvestedHigh_J[hour]! += kept_J - low_J;
  }

  /** Adds what driver and LED took over the step, by Simpson's rule; out: the driver's energy, joules. */
  private takeLoad(): number {
    const { lamp, columns, hour } = this;
    const { ohm } = lamp;
    const {
      load,
      startLoad_A,
      middleLoad_A,
      endLoad_A,
      startTerminal_V: start_V,
      terminal_V,
      step_s: h,
    } = lamp;
    const middle_V = lamp.middle_V + ohm * (lamp.currentAt_A(lamp.middle_V) - middleLoad_A);
    let load_J = (h / 6) * (startLoad_A * start_V + 4 * middleLoad_A * middle_V + endLoad_A * terminal_V);
    this.load_C = (h / 6) * (startLoad_A + 4 * middleLoad_A + endLoad_A);
    if (lamp.charging && lamp.stiff >= SLOW) {
      // Most of the step it stands near its end: what the driver draws there.
      const mean_A = lamp.loadAt_A(lamp.mean_V);
      this.load_C = h * mean_A;
      load_J = this.load_C * (lamp.mean_V + ohm * (lamp.currentAt_A(lamp.mean_V) - mean_A));
    }
    const led_J = load_J * load.efficiency(middle_V);
    columns.led_J[hour]! += led_J;
    columns.driverLoss_J[hour]! += load_J - led_J;
    columns.ledOn_s[hour]! += lamp.duty * h;
    columns.led_C[hour]! +=
      (lamp.share * h * (load.led_A(start_V) + 4 * load.led_A(middle_V) + load.led_A(terminal_V))) / 6;
    return load_J;
  }

  /** Sets the voltage of the cell's terminals and of diode with resistance at a current, each by its own law. */
  private chainAt(current_A: number, main_V: number): void {
    const { lamp } = this;
    const { ohm } = lamp;
    const { curve } = lamp;
    const { cell, diode } = lamp.lamp;
    const junction_V = curve.diodeJunction_V(current_A, curve.junction_V);
    this.diodeAt_V = junction_V + diode.series_ohm * current_A;
    const drop_V = cell.series_ohm * current_A;
    const guess_V = main_V + ohm * (current_A - lamp.middleLoad_A) + this.diodeAt_V + drop_V;
    this.cellAt_V = curve.cellJunction_V(current_A, guess_V) - drop_V;
  }

  private chargeThroughCell(
    in_C: number,
    moved_C: number,
    drained_C: number,
    delayed_C: number,
    delayed_J: number,
  ): void {
    const { lamp } = this;
    const { ohm } = lamp;
    const { capacitance_F: c0, rise_F_V: c1 } = lamp.lamp.capacitor;
    const { main_V, rise_V, mean_V, middleLoad_A } = lamp;
    const half_V = main_V + 0.5 * rise_V;
    const early_V = half_V - GAUSS * rise_V;
    const late_V = half_V + GAUSS * rise_V;
    const early_A = lamp.currentAt_A(early_V);
    this.chainAt(early_A, early_V);
    const { cellAt_V: earlyCell_V, diodeAt_V: earlyDiode_V } = this;
    const late_A = lamp.currentAt_A(late_V);
    this.chainAt(late_A, late_V);
    const { cellAt_V: lateCell_V, diodeAt_V: lateDiode_V } = this;
    this.early_A = early_A;
    this.earlyCell_V = earlyCell_V;
    this.late_A = late_A;
    this.lateCell_V = lateCell_V;
    const part = rise_V === 0 ? 0.5 : (mean_V - early_V) / (late_V - early_V);
    const meanCell_V = earlyCell_V + part * (lateCell_V - earlyCell_V);
    const meanDiode_V = earlyDiode_V + part * (lateDiode_V - earlyDiode_V);
    const mean_A = early_A + part * (late_A - early_A);
    const early_C = 0.5 * (c0 + c1 * early_V) * rise_V;
    const late_C = 0.5 * (c0 + c1 * late_V) * rise_V;
    const drain_C = in_C - moved_C;
    this.cell_J =
      early_C * earlyCell_V + late_C * lateCell_V + drain_C * meanCell_V + delayed_J - delayed_C * mean_V;
    this.diode_J = early_C * earlyDiode_V + late_C * lateDiode_V + drain_C * meanDiode_V;
    this.resistance_J =
      ohm *
      (early_C * (early_A - middleLoad_A) +
        late_C * (late_A - middleLoad_A) +
        drained_C * (mean_A - middleLoad_A));
  }

  /** Where most of what comes in goes on to the driver, all is weighed along time, by Simpson's rule; out: charge in. */
  private chargeWhileLit(): number {
    const { lamp } = this;
    const { ohm } = lamp;
    const nodes = [
      { weight: 1, main_V: lamp.main_V, load_A: lamp.startLoad_A },
      { weight: 4, main_V: lamp.middle_V, load_A: lamp.middleLoad_A },
      { weight: 1, main_V: lamp.end_V, load_A: lamp.endLoad_A },
    ];
    let in_C = 0;
    this.cell_J = 0;
    this.diode_J = 0;
    this.resistance_J = 0;
    for (const { weight, main_V, load_A } of nodes) {
      const weight_s = (weight * lamp.step_s) / 6;
      const in_A = lamp.currentAt_A(main_V);
      this.chainAt(in_A, main_V);
      in_C += weight_s * in_A;
      this.cell_J += weight_s * in_A * this.cellAt_V;
      this.diode_J += weight_s * in_A * this.diodeAt_V;
      this.resistance_J += weight_s * ohm * square(in_A - load_A);
      this.early_A = this.late_A;
      this.earlyCell_V = this.lateCell_V;
      this.late_A = in_A;
      this.lateCell_V = this.cellAt_V;
    }
    return in_C;
  }

  /** What flows back through a blocked diode, and the series resistance between capacitor and driver. */
  private blockedCell(in_C: number, inner_C: number): void {
    const { lamp } = this;
    const { ohm } = lamp;
    const { startLoad_A, middleLoad_A, endLoad_A, curve } = lamp;
    const terminal_V = lamp.middle_V - ohm * middleLoad_A;
    this.early_A = 0;
    this.late_A = 0;
    this.earlyCell_V = curve.highest_V;
    this.lateCell_V = curve.highest_V;
    this.cell_J = in_C * curve.highest_V;
    this.diode_J = -in_C * (terminal_V - curve.highest_V);
    this.resistance_J = lamp.lit
      ? (ohm * lamp.step_s * (square(startLoad_A) + 4 * square(middleLoad_A) + square(endLoad_A))) / 6
      : -ohm * inner_C * middleLoad_A;
  }
}
