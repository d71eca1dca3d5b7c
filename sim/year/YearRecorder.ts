import { capacitorEnergy_J } from '../lamp/capacitor/step.ts';
import type { LampStepper } from './LampStepper.ts';
import { emptyNightTotals, type NightTotals, SHORT_CAUSES } from './NightTotals.ts';
import { thresholdCrossing } from './thresholdCrossing.ts';
import { emptyYearColumns, type YearColumns } from './YearColumns.ts';

const BELOW = SHORT_CAUSES.indexOf('still-empty');
const EMPTY = SHORT_CAUSES.indexOf('ran-empty');
const LATE = SHORT_CAUSES.indexOf('switched-on-late');
const DIM = SHORT_CAUSES.indexOf('too-dim');
const UNSCHEDULED = SHORT_CAUSES.indexOf('not-scheduled');

/** Keeps the recorder of a pass: every accepted step goes into its hour and its night. The run sets where and what is on. */
export class YearRecorder {
  readonly columns: YearColumns;
  readonly nights: NightTotals;
  /** Time steps taken. */
  steps = 0;
  /** Seconds lit above the reach of a boost's formula. */
  beyondFormula_s = 0;
  /** First instant at which the capacitor reached the LED's voltage; NaN where it never did. */
  conductsThrough_s = Number.NaN;

  hour = 0;
  night = 0;
  /** Between dusk and dawn. */
  inNight = false;
  promised = false;
  switchedOnTonight = false;
  /** The lamp was already stopped when it was to switch on. */
  beganBelow = false;
  /** A boost is above the boundary of discontinuous conduction, under its stated limit. */
  aboveDcm = false;
  /** Light of the LED at the present instant, and at this night's switching on. */
  light_lm = 0;
  duskLight_lm = 0;
  terminal_V = 0;
  /** Best point of the cell in this hour; no power in the dark. */
  bestPower_W = 0;
  best_V = 0;

  private readonly lamp: LampStepper;
  private readonly leastLight_lm: number;
  private readonly rated_V: number;
  private readonly conducts_V: number;

  /** in: lamp; hours and nights of the run; leastLight_lm that counts as lit */
  constructor(lamp: LampStepper, hours: number, nights: number, leastLight_lm: number) {
    this.lamp = lamp;
    this.columns = emptyYearColumns(hours);
    this.nights = emptyNightTotals(nights);
    this.leastLight_lm = leastLight_lm;
    this.rated_V = lamp.lamp.capacitor.rated_V;
    const { driver, led } = lamp.lamp;
    this.conducts_V = driver.law.conductsFrom_V(led.forward_V[0]!);
  }

  /**
   * Takes the tried step over, adding it to the hour and the night.
   * in: step_s, its length; now_s, its beginning, seconds from the start of the record
   */
  take(step_s: number, now_s: number): void {
    const { lamp, columns, nights, hour, night } = this;
    const { sums } = lamp;
    const { capacitor } = lamp.lamp;
    const [delayed1, delayed2] = capacitor.delayed;
    this.steps++;
    const from_V = lamp.main_V;
    const to_V = lamp.endMain_V;
    const stored_J =
      capacitorEnergy_J(capacitor, to_V) -
      capacitorEnergy_J(capacitor, from_V) +
      0.5 * delayed1.capacitance_F * (lamp.endSlow1_V ** 2 - lamp.delayed1_V ** 2) +
      0.5 * delayed2.capacitance_F * (lamp.endSlow2_V ** 2 - lamp.delayed2_V ** 2);
    const driver_J = sums.load_J - sums.led_J;
    const lost_J =
      sums.diode_J +
      sums.resistance_J +
      sums.delayed_J +
      sums.leakage_J +
      sums.limiter_J +
      sums.standby_J +
      driver_J;
    columns.chargeIn_C[hour]! += sums.in_C;
    columns.chargeOut_C[hour]! += sums.out_C;
    columns.cell_J[hour]! += sums.cell_J;
    columns.diodeLoss_J[hour]! += sums.diode_J;
    columns.resistanceLoss_J[hour]! += sums.resistance_J;
    columns.delayedBranchLoss_J[hour]! += sums.delayed_J;
    columns.leakage_J[hour]! += sums.leakage_J;
    columns.standby_J[hour]! += sums.standby_J;
    columns.storedChange_J[hour]! += stored_J;
    columns.residual_J[hour]! += sums.cell_J - lost_J - sums.led_J - stored_J;
    if (sums.limiter_J !== 0) columns.limiter_J[hour]! += sums.limiter_J;
    if (this.bestPower_W > 0) {
      const best_J = this.bestPower_W * step_s;
      columns.cellBest_J[hour]! += best_J;
      const unharvested_J = best_J - sums.cell_J;
      const cell_V = sums.in_C === 0 ? this.best_V : sums.cell_J / sums.in_C;
      if (cell_V < this.best_V) columns.unharvestedLow_J[hour]! += unharvested_J;
      else columns.unharvestedHigh_J[hour]! += unharvested_J;
    }
    const lower_V = Math.min(from_V, to_V);
    if (lower_V < columns.capacitorLowest_V[hour]!) columns.capacitorLowest_V[hour] = lower_V;
    if (this.inNight && lower_V < nights.lowest_V[night]!) nights.lowest_V[night] = lower_V;
    if (to_V > this.rated_V || from_V > this.rated_V) {
      const above_s = step_s * shareAbove(from_V, to_V, this.rated_V);
      columns.aboveRated_s[hour]! += above_s;
      nights.aboveRated_s[night]! += above_s;
    }
    if (to_V >= this.conducts_V && Number.isNaN(this.conductsThrough_s)) this.conductsThrough_s = now_s;
    const on = lamp.share > 0 && !lamp.stopped;
    if (on) this.takeLight(step_s, now_s, driver_J);
    else {
      if (this.promised) this.takeShort(step_s, now_s);
      this.terminal_V = lamp.terminal_V;
    }
    lamp.accept();
  }

  private takeLight(step_s: number, now_s: number, driver_J: number): void {
    const { lamp, columns, nights, hour, night } = this;
    const { sums } = lamp;
    const from_V = this.terminal_V;
    const to_V = lamp.terminal_V;
    const before_lm = this.light_lm;
    const after_lm = lamp.light_lm(to_V);
    columns.driverLoss_J[hour]! += driver_J;
    columns.led_J[hour]! += sums.led_J;
    columns.led_C[hour]! += sums.led_C;
    columns.light_lm_h[hour]! += sums.light_lm_s / 3600;
    columns.shining_s[hour]! += step_s;
    nights.light_lm_h[night]! += sums.light_lm_s / 3600;
    nights.shining_s[night]! += step_s;
    if (this.aboveDcm) this.beyondFormula_s += step_s;
    const bright_s = this.timeAbove(this.leastLight_lm, before_lm, after_lm, from_V, to_V, step_s);
    nights.aboveHalf_s[night]! += this.timeAbove(
      this.duskLight_lm / 2,
      before_lm,
      after_lm,
      from_V,
      to_V,
      step_s,
    );
    nights.aboveFifth_s[night]! += this.timeAbove(
      this.duskLight_lm / 5,
      before_lm,
      after_lm,
      from_V,
      to_V,
      step_s,
    );
    if (this.promised) {
      nights.promised_s[night]! += bright_s;
      nights.lit_s[night]! += bright_s;
      columns.promised_s[hour]! += bright_s;
      columns.lit_s[hour]! += bright_s;
      // Fading light darkens the end of a step, brightening light its beginning.
      if (bright_s < step_s) this.takeShort(step_s - bright_s, now_s + (after_lm < before_lm ? bright_s : 0));
    } else {
      nights.litBeyondPromise_s[night]! += bright_s;
    }
    this.terminal_V = to_V;
    this.light_lm = after_lm;
  }

  /** Notes promised time without light. */
  private takeShort(short_s: number, begins_s: number): void {
    const { lamp, columns, nights, hour, night } = this;
    nights.promised_s[night]! += short_s;
    columns.promised_s[hour]! += short_s;
    columns.short_s[hour]! += short_s;
    if (Number.isNaN(nights.firstShort_s[night]!)) nights.firstShort_s[night] = begins_s;
    let cause = DIM;
    if (lamp.share === 0) cause = this.switchedOnTonight ? UNSCHEDULED : LATE;
    else if (lamp.stopped) cause = this.beganBelow ? BELOW : EMPTY;
    nights.shortBy_s[cause]![night]! += short_s;
  }

  private timeAbove(
    level_lm: number,
    before_lm: number,
    after_lm: number,
    from_V: number,
    to_V: number,
    step_s: number,
  ): number {
    if (before_lm >= level_lm && after_lm >= level_lm) return step_s;
    if (before_lm < level_lm && after_lm < level_lm) return 0;
    const { lamp } = this;
    const share = thresholdCrossing(
      lamp,
      from_V,
      to_V,
      lamp.startRate * step_s,
      lamp.endRate * step_s,
      level_lm,
    );
    return step_s * (after_lm < before_lm ? share : 1 - share);
  }
}

function shareAbove(from: number, to: number, level: number): number {
  if (from >= level && to >= level) return 1;
  const inside = (level - from) / (to - from);
  return to > from ? 1 - inside : inside;
}
