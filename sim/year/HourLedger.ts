import { averageStep } from './averageStep.ts';
import { CellEnergy } from './CellEnergy.ts';
import type { HourLimits } from './hourLimits.ts';
import type { LampStepper } from './LampStepper.ts';
import type { Sum } from './RepeatedCycle.ts';
import type { HOUR_TIMES, YEAR_COLUMNS, YearColumns } from './YearColumns.ts';

/** A step less stiff than this changes slowly. */
const SLOW = 1.8;
/** What an hour is at, rather than what comes together in it, and what `HourTimes` adds up. */
type Others =
  | 'jar_degC'
  | 'reachable_V'
  | 'capacitorEnd_V'
  | 'capacitorLowest_V'
  | (typeof HOUR_TIMES)[number];
type SumName = Exclude<(typeof YEAR_COLUMNS)[number], Others>;
/** The place of each sum among those of the hour. */
const AT = {
  chargeIn_C: 0,
  chargeOut_C: 1,
  cellBest_J: 2,
  cell_J: 3,
  unharvestedLow_J: 4,
  unharvestedHigh_J: 5,
  diodeLoss_J: 6,
  resistanceLoss_J: 7,
  delayedBranchLoss_J: 8,
  leakage_J: 9,
  limiter_J: 10,
  standby_J: 11,
  driverLoss_J: 12,
  led_J: 13,
  storedChange_J: 14,
  residual_J: 15,
  ledOn_s: 16,
  led_C: 17,
} as const;
const SUMS = 18;

/** Hours whose sums are held before they are added to the columns. */
const HELD_HOURS = 72;

/**
 * The energy ledger of a pass, by the hour. Each loss is integrated on its own: the cell's energy by the cell's law at
 * the currents along the step, the diode's by the diode's, leakage, limiter, standby and load from their own currents;
 * what does not add up stands in the residual. The charge that came in is what moved the branches and what drained, so
 * that charge closes to rounding.
 *
 * What moves the main branch is weighed along its charge, by Gauss's two points; what drains along time, at the mean.
 */
export class HourLedger {
  private readonly columns: YearColumns;
  private readonly lamp: LampStepper;
  private readonly limits: HourLimits;
  private hour = 0;
  /**
   * What came together in the hours since `first`, a row an hour: they are added to the columns together, since the
   * processor reaches so many columns at once only by waiting for each.
   */
  private readonly sums = new Float64Array(HELD_HOURS * SUMS);
  private readonly summed: readonly Float64Array[];
  private first = 0;
  private held = 0;
  /** Where the present hour's row begins. */
  private row = 0;
  private lowest_V = 0;
  /** Of the step that is being taken. */
  private load_C = 0;
  private readonly cell: CellEnergy;

  /** in: lamp; columns, which it adds to; limits of the hours */
  constructor(lamp: LampStepper, columns: YearColumns, limits: HourLimits) {
    this.lamp = lamp;
    this.cell = new CellEnergy(lamp);
    this.columns = columns;
    this.limits = limits;
    const names = Object.keys(AT satisfies Record<SumName, number>) as SumName[];
    this.summed = names.map((name) => columns[name]);
  }

  beginHour(hour: number): void {
    if (this.held === HELD_HOURS || hour !== this.first + this.held) this.write();
    this.hour = hour;
    this.first = hour - this.held;
    this.row = this.held * SUMS;
    this.held++;
    const lowest_V = this.columns.capacitorLowest_V[hour]!;
    this.lowest_V = lowest_V === 0 ? this.lamp.main_V : lowest_V;
  }

  /** in: whole, whether the hour was gone through to its end */
  endHour(whole: boolean): void {
    const { columns, hour } = this;
    columns.capacitorLowest_V[hour] = this.lowest_V;
    if (whole) columns.capacitorEnd_V[hour] = this.lamp.main_V;
    else this.write();
  }

  /** What the steps of this hour are added to, with all that were taken. */
  written(): Sum[] {
    this.write();
    this.first = this.hour;
    this.held = 1;
    return this.summed.map((column) => ({ column, at: this.hour }));
  }

  /** Adds what came together to the columns. */
  write(): void {
    const { sums, summed, first, held } = this;
    summed.forEach((column, at) => {
      addTo(column, first, held, sums, at);
    });
    sums.fill(0);
    this.held = 0;
    this.row = 0;
  }

  /** Adds charge to what was drawn in this hour, coulombs. */
  takeCharge(charge_C: number): void {
    this.sums[this.row + AT.chargeOut_C]! += charge_C;
  }

  /** Adds the tried step to its hour. */
  take(): void {
    const { lamp, sums, row, cell } = this;
    const { drains, delayed, main_V: from_V, end_V: to_V, rise_V, step_s: h } = lamp;
    const { junction_V } = lamp.curve;
    const middle_V = from_V + 0.5 * rise_V;
    averageStep(lamp);
    const { mean_V, spread_V2 } = lamp;
    drains.main_V = mean_V;
    drains.read();
    const leak_C = h * (drains.leak_A + 0.5 * drains.leakSecond * spread_V2);
    const bleed_C = h * drains.bleed_A;
    const standby_C = h * drains.standbyNow_A;
    const leak_J = mean_V * leak_C + h * drains.leakSlope * spread_V2;
    const bleed_J = mean_V * bleed_C + h * drains.bleedSlope * spread_V2;
    const standby_J = mean_V * standby_C + h * drains.standbySlope * spread_V2;
    const delayed_C = delayed.one.charge_C + delayed.two.charge_C;
    const moved_C = rise_V * (lamp.c0 + lamp.c1 * middle_V);
    const drained_C = leak_C + bleed_C + standby_C + delayed_C;
    delayed.readEnergy();
    const { heat_J } = delayed;
    const stored_J =
      rise_V * (lamp.c0 * middle_V + lamp.c1 * (middle_V * middle_V + rise_V * rise_V * (1 / 12))) +
      delayed.stored_J;
    const load_J = lamp.lit ? this.takeLoad() : 0;
    let load_C = lamp.lit ? this.load_C : 0;
    cell.in_C = moved_C + drained_C + load_C;
    cell.moved_C = moved_C;
    cell.drained_C = drained_C;
    cell.delayed_C = delayed_C;
    cell.delayed_J = heat_J + delayed.stored_J;
    if (lamp.charging && lamp.lit && lamp.stiff < SLOW) {
      cell.whileLit();
      load_C = cell.in_C - moved_C - drained_C;
    } else if (lamp.charging) cell.whileCharging();
    else {
      if (lamp.lit) {
        cell.in_C = h * lamp.currentAt_A(lamp.middle_V);
        load_C = cell.in_C - moved_C - drained_C;
      }
      cell.whileBlocked();
    }
    sums[row + AT.chargeIn_C]! += cell.in_C;
    sums[row + AT.chargeOut_C]! += leak_C + bleed_C + standby_C + load_C;
    sums[row + AT.cell_J]! += cell.cell_J;
    sums[row + AT.diodeLoss_J]! += cell.diode_J;
    sums[row + AT.resistanceLoss_J]! += cell.resistance_J;
    sums[row + AT.delayedBranchLoss_J]! += heat_J;
    sums[row + AT.leakage_J]! += leak_J;
    sums[row + AT.standby_J]! += standby_J;
    sums[row + AT.storedChange_J]! += stored_J;
    sums[row + AT.residual_J]! +=
      cell.cell_J -
      (cell.diode_J + cell.resistance_J + heat_J + leak_J + bleed_J + standby_J + load_J) -
      stored_J;
    if (bleed_J !== 0) sums[row + AT.limiter_J]! += bleed_J;
    if (this.limits.bestPower_W[this.hour]! > 0) this.takeUnharvested(h);
    const lower_V = Math.min(from_V, to_V);
    if (lower_V < this.lowest_V) this.lowest_V = lower_V;
    // The next look begins where it would without a ledger: the same run, bit for bit.
    lamp.curve.junction_V = junction_V;
  }

  /** What the cell kept is weighed at the step's two points; it counts as low where its voltage lies below the best. */
  private takeUnharvested(h: number): void {
    const { sums, row, hour, limits, cell } = this;
    const best_J = limits.bestPower_W[hour]! * h;
    const kept_J = best_J - cell.cell_J;
    sums[row + AT.cellBest_J]! += best_J;
    const best_W = limits.bestPower_W[hour]!;
    const early_W = Math.max(best_W - cell.early_A * cell.earlyCell_V, 0);
    const late_W = Math.max(best_W - cell.late_A * cell.lateCell_V, 0);
    const low_W =
      (cell.earlyCell_V < limits.best_V[hour]! ? early_W : 0) +
      (cell.lateCell_V < limits.best_V[hour]! ? late_W : 0);
    const low_J = early_W + late_W > 0 ? (kept_J * low_W) / (early_W + late_W) : 0;
    sums[row + AT.unharvestedLow_J]! += low_J;
    sums[row + AT.unharvestedHigh_J]! += kept_J - low_J;
  }

  /** Adds what driver and LED took over the step, by Simpson's rule; out: the driver's energy, joules. */
  private takeLoad(): number {
    const { lamp, sums, row } = this;
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
    sums[row + AT.led_J]! += led_J;
    sums[row + AT.driverLoss_J]! += load_J - led_J;
    sums[row + AT.ledOn_s]! += lamp.duty * h;
    sums[row + AT.led_C]! +=
      (lamp.share * h * (load.led_A(start_V) + 4 * load.led_A(middle_V) + load.led_A(terminal_V))) / 6;
    return load_J;
  }
}

/** Adds a sum of each row to the hours of its column. */
function addTo(column: Float64Array, first: number, held: number, sums: Float64Array, at: number): void {
  for (let i = 0; i < held; i++) column[first + i]! += sums[i * SUMS + at]!;
}
