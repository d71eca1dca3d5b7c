import type { LoadTable } from '../lamp/loadTable.ts';
import type { LampParams } from '../lamp/params.ts';
import { storeEnergy_J } from '../lamp/store/step.ts';
import type { LampStepper } from './LampStepper.ts';
import { type NightPlan, PLAN } from './NightPlan.ts';
import { DARK_BECAUSE, emptyNightTotals, type NightTotals } from './NightTotals.ts';
import { passage } from './passage.ts';
import { emptyYearColumns, type YearColumns } from './YearColumns.ts';

const BELOW = DARK_BECAUSE.indexOf('began-below-floor');
const EMPTY = DARK_BECAUSE.indexOf('ran-empty');
const LATE = DARK_BECAUSE.indexOf('late-on');
const DIM = DARK_BECAUSE.indexOf('too-dim');
const UNSCHEDULED = DARK_BECAUSE.indexOf('not-scheduled');

/** A step shorter than this that still fails is a defect, not a hard hour. */
const SHORTEST_STEP_S = 1e-4;
/** More stops and restarts than this in one hour are stutter that hysteresis should have settled. */
const MOST_SWITCHINGS_AN_HOUR = 500;
/** Stop, restart and the end of a boost's formula are met to this voltage: milliseconds of a night. */
const EVENT_V = 1e-8;

/** What the loop runs over: light and temperature by the hour, and the promise. */
export interface YearInput {
  count: number;
  light_W_m2: Float64Array;
  jar_degC: Float64Array;
  plan: NightPlan;
  /** Least light that counts as lit. */
  leastLight_lm: number;
  /** Error of the store's voltage allowed in one step. */
  tolerance_V: number;
}

/**
 * One pass of a lamp over a record, hour by hour, with the instants of the plan, the stop at the floor and the restart
 * met inside the hours. Fills `columns` and `nights`; its end state is that of `lamp`.
 *
 * throws: Error where the circuit cannot be solved or the driver stutters (defects)
 */
export class YearRun {
  readonly lamp: LampStepper;
  readonly columns: YearColumns;
  readonly nights: NightTotals;
  /** Time steps taken. */
  steps = 0;
  /** Seconds lit above the reach of a boost's formula. */
  beyondFormula_s = 0;
  /** First instant at which the store reached the LED's voltage; NaN where it never did. */
  conductsThrough_s = Number.NaN;

  private readonly input: YearInput;
  private readonly params: LampParams;
  private readonly restart_V: number;
  private readonly floor_V: number;
  private readonly rated_V: number;
  private readonly conducts_V: number;
  /** Store voltage above which a boost's choke no longer runs empty. */
  private readonly edge_V: number;
  private beyond = false;
  private readonly needsDusk: boolean;

  private now_s = 0;
  private hour = 0;
  private night = 0;
  private promised = false;
  private armed: boolean;
  private beganBelow = false;
  private switchedOnTonight = false;
  private inNight = false;
  /** Light of the LED at the present instant, and at this night's switching on. */
  private light_lm = 0;
  private duskLight_lm = 0;
  private terminal_V = 0;
  private nextStep_s = 3600;
  private switchings = 0;
  private best_V = 0;
  private bestPower_W = 0;

  constructor(params: LampParams, lamp: LampStepper, input: YearInput) {
    this.params = params;
    this.lamp = lamp;
    this.input = input;
    this.columns = emptyYearColumns(input.count);
    this.nights = emptyNightTotals(input.plan.nights);
    this.restart_V = params.driver.restart_V;
    this.floor_V = params.driver.floor_V;
    this.rated_V = params.store.rated_V;
    const law = params.driver.law;
    this.conducts_V =
      law.kind === 'boost' ? params.led.forward_V[0]! + law.rectifier_V : Number.POSITIVE_INFINITY;
    this.edge_V = law.kind === 'boost' ? edgeOf(params.load, 1 - law.duty) : Number.POSITIVE_INFINITY;
    this.needsDusk = params.driver.restartNeedsDusk;
    this.armed = !(this.needsDusk && lamp.stopped);
  }

  run(): void {
    const { plan, count } = this.input;
    this.now_s = plan.from_s;
    this.lamp.share = 0;
    this.setBeyond(false);
    this.terminal_V = this.lamp.main_V;
    let next = 0;
    let hourNumber = Math.floor(plan.from_s / 3600);
    while (this.now_s < plan.to_s) {
      this.enterHour(hourNumber % count);
      const hourEnd_s = Math.min((hourNumber + 1) * 3600, plan.to_s);
      while (next < plan.count && plan.at_s[next]! < hourEnd_s) {
        this.advanceTo(plan.at_s[next]!);
        this.follow(plan.what[next]!, plan.value[next]!);
        next++;
      }
      this.advanceTo(hourEnd_s);
      if (hourEnd_s === (hourNumber + 1) * 3600) this.columns.storeEnd_V[this.hour] = this.lamp.main_V;
      hourNumber++;
    }
  }

  private enterHour(hour: number): void {
    const { lamp, input, columns } = this;
    this.hour = hour;
    this.switchings = 0;
    const light_W_m2 = input.light_W_m2[hour]!;
    const jar_degC = input.jar_degC[hour]!;
    lamp.setConditions(light_W_m2, jar_degC);
    columns.jar_degC[hour] = jar_degC;
    if (columns.storeLowest_V[hour] === 0) columns.storeLowest_V[hour] = lamp.main_V;
    this.nextStep_s = 3600;
    if (light_W_m2 > 0) {
      this.bestPower_W = lamp.path.bestPower_W();
      this.best_V = lamp.path.best_V;
      // The leakage at the ceiling is part of what holds it down; two rounds settle it to microvolts.
      let ceiling_V = lamp.path.openCircuit_V;
      const standby_A = this.params.driver.standby_A;
      for (let round = 0; round < 2; round++)
        ceiling_V = lamp.path.ceiling_V(lamp.leakageAt_A(ceiling_V) + standby_A);
      columns.ceiling_V[hour] = ceiling_V;
    } else {
      this.bestPower_W = 0;
    }
  }

  /** Does what the plan says at this instant. */
  private follow(what: number, value: number): void {
    const { lamp, nights } = this;
    switch (what) {
      case PLAN.noon:
        this.night = value;
        this.switchedOnTonight = false;
        this.beganBelow = false;
        this.inNight = false;
        break;
      case PLAN.dusk:
        nights.dusk_V[this.night] = lamp.main_V;
        nights.lowest_V[this.night] = lamp.main_V;
        this.inNight = true;
        this.armed = true;
        if (lamp.stopped && lamp.share > 0 && lamp.main_V >= this.restart_V) {
          lamp.stopped = false;
          this.readLight();
        }
        break;
      case PLAN.dawn:
        nights.dawn_V[this.night] = lamp.main_V;
        this.inNight = false;
        break;
      case PLAN.share:
        this.switchTo(value);
        break;
      case PLAN.promise:
        this.promised = value === 1;
        break;
    }
  }

  private switchTo(share: number): void {
    const { lamp } = this;
    const wasOff = lamp.share === 0;
    lamp.share = share;
    if (share > 0 && wasOff && lamp.stopped && this.armed && lamp.main_V >= this.restart_V)
      lamp.stopped = false;
    this.readLight();
    if (share > 0 && wasOff && !this.switchedOnTonight) {
      this.switchedOnTonight = true;
      this.beganBelow = lamp.stopped;
      this.duskLight_lm = this.light_lm;
    }
  }

  /** Light and terminal voltage after a change at this instant; stops at once where the floor is already reached. */
  private readLight(): void {
    const { lamp } = this;
    if (lamp.share > 0 && !lamp.stopped) {
      this.setBeyond(lamp.main_V >= this.edge_V);
      lamp.settle();
      if (lamp.terminal_V <= this.floor_V) {
        lamp.stopped = true;
        this.armed = !this.needsDusk;
      }
    }
    lamp.settle();
    this.terminal_V = lamp.terminal_V;
    this.light_lm = lamp.share > 0 && !lamp.stopped ? lamp.light_lm(this.terminal_V) : 0;
  }

  private setBeyond(beyond: boolean): void {
    this.beyond = beyond;
    this.lamp.draw.setBeyond(beyond);
  }

  private advanceTo(target_s: number): void {
    const { lamp, input } = this;
    let left_s = target_s - this.now_s;
    while (left_s > 1e-9) {
      let step_s = Math.min(left_s, this.nextStep_s);
      while (!lamp.tryStep(step_s) || lamp.error_V > input.tolerance_V) {
        const shrink =
          lamp.error_V > input.tolerance_V ? 0.9 * Math.cbrt(input.tolerance_V / lamp.error_V) : 0.3;
        step_s *= Math.min(0.7, Math.max(0.1, shrink));
        if (step_s < SHORTEST_STEP_S) {
          throw new Error(
            `the circuit cannot be solved in hour ${this.hour} at a store voltage of ${lamp.main_V} V`,
          );
        }
      }
      const crossed_V = this.thresholdCrossed_V();
      if (!Number.isNaN(crossed_V)) step_s = this.locate(step_s, crossed_V);
      this.nextStep_s =
        lamp.error_V < 0.1 * input.tolerance_V
          ? 3 * step_s
          : step_s * 0.9 * Math.cbrt(input.tolerance_V / lamp.error_V);
      this.record(step_s);
      this.now_s += step_s;
      left_s = target_s - this.now_s;
      if (!Number.isNaN(crossed_V)) this.passThreshold(crossed_V);
    }
    this.now_s = target_s;
  }

  /** The voltage that the tried step has carried the lamp across, where that changes what it does; NaN if none. */
  private thresholdCrossed_V(): number {
    const { lamp } = this;
    const end_V = lamp.terminal_V;
    if (lamp.stopped) {
      return this.armed && this.terminal_V < this.restart_V && end_V >= this.restart_V
        ? this.restart_V
        : Number.NaN;
    }
    if (lamp.share === 0) return Number.NaN;
    if (this.beyond ? end_V < this.edge_V : end_V > this.edge_V) return this.edge_V;
    return end_V < this.floor_V ? this.floor_V : Number.NaN;
  }

  /** Shortens the tried step until it ends at the threshold. */
  private locate(whole_s: number, threshold_V: number): number {
    const { lamp } = this;
    let low_s = 0;
    let atLow = this.terminal_V - threshold_V;
    let high_s = whole_s;
    let atHigh = lamp.terminal_V - threshold_V;
    // A start already beyond the threshold (after a switch) has nothing to search.
    if (atLow * atHigh > 0) return whole_s;
    let step_s = whole_s;
    let side = 0;
    for (let round = 0; round < 60 && Math.abs(atHigh) > EVENT_V && high_s - low_s > 1e-3; round++) {
      step_s = (low_s * atHigh - high_s * atLow) / (atHigh - atLow);
      if (!(step_s > low_s && step_s < high_s)) step_s = (low_s + high_s) / 2;
      if (!lamp.tryStep(step_s)) throw new Error(`the circuit cannot be solved in hour ${this.hour}`);
      const at = lamp.terminal_V - threshold_V;
      if (at * atHigh > 0 || at === 0) {
        high_s = step_s;
        atHigh = at;
        if (side === 1) atLow /= 2;
        side = 1;
      } else {
        low_s = step_s;
        atLow = at;
        if (side === -1) atHigh /= 2;
        side = -1;
      }
    }
    lamp.tryStep(high_s);
    return high_s;
  }

  /** Changes what the lamp does, at a threshold. */
  private passThreshold(threshold_V: number): void {
    const { lamp } = this;
    this.switchings++;
    if (this.switchings > MOST_SWITCHINGS_AN_HOUR) {
      throw new Error(
        `the driver stutters at ${threshold_V} V in hour ${this.hour}: restart too near the floor`,
      );
    }
    if (lamp.stopped) {
      lamp.stopped = false;
      this.beganBelow = false;
      this.readLight();
    } else if (threshold_V === this.floor_V) {
      lamp.stopped = true;
      this.armed = !this.needsDusk;
      this.light_lm = 0;
      lamp.settle();
      this.terminal_V = lamp.terminal_V;
    } else {
      this.setBeyond(!this.beyond);
      lamp.settle();
      this.terminal_V = lamp.terminal_V;
      this.light_lm = lamp.light_lm(this.terminal_V);
    }
    this.nextStep_s = 3600;
  }

  /** Takes the tried step over and adds it to the hour and the night. */
  private record(step_s: number): void {
    const { lamp, columns, nights, hour, night, params } = this;
    this.steps++;
    const store = params.store;
    const [slow1, slow2] = store.slow;
    const from_V = lamp.main_V;
    const to_V = lamp.endMain_V;
    const stored_J =
      storeEnergy_J(store, to_V) -
      storeEnergy_J(store, from_V) +
      0.5 * slow1.capacitance_F * (lamp.endSlow1_V ** 2 - lamp.slow1_V ** 2) +
      0.5 * slow2.capacitance_F * (lamp.endSlow2_V ** 2 - lamp.slow2_V ** 2);
    const driver_J = lamp.load_J - lamp.led_J;
    const lost_J =
      lamp.diode_J +
      lamp.resistance_J +
      lamp.slow_J +
      lamp.leakage_J +
      lamp.limiter_J +
      lamp.standby_J +
      driver_J;
    columns.chargeIn_C[hour]! += lamp.in_C;
    columns.chargeOut_C[hour]! += lamp.out_C;
    columns.cell_J[hour]! += lamp.cell_J;
    columns.diodeLoss_J[hour]! += lamp.diode_J;
    columns.resistanceLoss_J[hour]! += lamp.resistance_J;
    columns.slowBranchLoss_J[hour]! += lamp.slow_J;
    columns.leakage_J[hour]! += lamp.leakage_J;
    columns.standby_J[hour]! += lamp.standby_J;
    columns.storedChange_J[hour]! += stored_J;
    columns.residual_J[hour]! += lamp.cell_J - lost_J - lamp.led_J - stored_J;
    if (lamp.limiter_J !== 0) columns.limiter_J[hour]! += lamp.limiter_J;
    if (this.bestPower_W > 0) {
      const best_J = this.bestPower_W * step_s;
      columns.cellBest_J[hour]! += best_J;
      const untaken_J = best_J - lamp.cell_J;
      const cell_V = lamp.in_C === 0 ? this.best_V : lamp.cell_J / lamp.in_C;
      if (cell_V < this.best_V) columns.untakenLow_J[hour]! += untaken_J;
      else columns.untakenHigh_J[hour]! += untaken_J;
    }
    const lower_V = Math.min(from_V, to_V);
    if (lower_V < columns.storeLowest_V[hour]!) columns.storeLowest_V[hour] = lower_V;
    if (this.inNight && lower_V < nights.lowest_V[night]!) nights.lowest_V[night] = lower_V;
    if (to_V > this.rated_V || from_V > this.rated_V) {
      const above_s = step_s * shareAbove(from_V, to_V, this.rated_V);
      columns.aboveRated_s[hour]! += above_s;
      nights.aboveRated_s[night]! += above_s;
    }
    if (to_V >= this.conducts_V && Number.isNaN(this.conductsThrough_s)) this.conductsThrough_s = this.now_s;
    const on = lamp.share > 0 && !lamp.stopped;
    if (on) this.recordLight(step_s, driver_J);
    else {
      if (this.promised) this.recordDark(step_s, 0);
      this.terminal_V = lamp.terminal_V;
    }
    lamp.accept();
  }

  private recordLight(step_s: number, driver_J: number): void {
    const { lamp, columns, nights, hour, night, input } = this;
    const from_V = this.terminal_V;
    const to_V = lamp.terminal_V;
    const before_lm = this.light_lm;
    const after_lm = lamp.light_lm(to_V);
    columns.driverLoss_J[hour]! += driver_J;
    columns.led_J[hour]! += lamp.led_J;
    columns.led_C[hour]! += lamp.led_C;
    columns.light_lm_h[hour]! += lamp.light_lm_s / 3600;
    columns.shining_s[hour]! += step_s;
    nights.light_lm_h[night]! += lamp.light_lm_s / 3600;
    nights.shining_s[night]! += step_s;
    if (this.beyond) this.beyondFormula_s += step_s;
    const bright_s = this.timeAbove(input.leastLight_lm, before_lm, after_lm, from_V, to_V, step_s);
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
      if (bright_s < step_s) this.recordDark(step_s - bright_s, after_lm < before_lm ? bright_s : 0);
    } else {
      nights.litBeyondPromise_s[night]! += bright_s;
    }
    this.terminal_V = to_V;
    this.light_lm = after_lm;
  }

  /** Notes promised time without light, beginning some seconds from now. */
  private recordDark(dark_s: number, begins_s: number): void {
    const { lamp, columns, nights, hour, night } = this;
    nights.promised_s[night]! += dark_s;
    columns.promised_s[hour]! += dark_s;
    columns.dark_s[hour]! += dark_s;
    if (Number.isNaN(nights.firstDark_s[night]!)) nights.firstDark_s[night] = this.now_s + begins_s;
    let cause = DIM;
    if (lamp.share === 0) cause = this.switchedOnTonight ? UNSCHEDULED : LATE;
    else if (lamp.stopped) cause = this.beganBelow ? BELOW : EMPTY;
    nights.darkBy_s[cause]![night]! += dark_s;
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
    const share = passage(lamp, from_V, to_V, lamp.startRate * step_s, lamp.endRate * step_s, level_lm);
    return step_s * (after_lm < before_lm ? share : 1 - share);
  }
}

/** The store voltage that equals a share of the output it is boosted to; the table's end where it never does. */
function edgeOf(load: LoadTable, share: number): number {
  const { output_V } = load.within;
  let row = 0;
  while (row < output_V.length - 1 && row * load.step_V < share * output_V[row]!) row++;
  const over = (i: number) => i * load.step_V - share * output_V[i]!;
  if (row === 0 || over(row) < 0) return Number.POSITIVE_INFINITY;
  return (row - over(row) / (over(row) - over(row - 1))) * load.step_V;
}

function shareAbove(from: number, to: number, level: number): number {
  if (from >= level && to >= level) return 1;
  const inside = (level - from) / (to - from);
  return to > from ? 1 - inside : inside;
}
