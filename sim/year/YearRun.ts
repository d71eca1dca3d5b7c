import type { LampParams } from '../lamp/params.ts';
import type { LampStepper } from './LampStepper.ts';
import { type NightPlan, PLAN } from './NightPlan.ts';
import { YearRecorder } from './YearRecorder.ts';

/** A step shorter than this that still fails is a defect, not a hard hour. */
const SHORTEST_STEP_S = 1e-4;
/** More stops and restarts than this in one hour are chatter that hysteresis should have settled. */
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
  /** Error of the capacitor's voltage allowed in one step. */
  tolerance_V: number;
}

/**
 * One pass of a lamp over a record, hour by hour, with the instants of the plan, the stop at the cut-off and the restart
 * met inside the hours. Its recorder are `recorder`, its end state that of `lamp`.
 *
 * throws: Error where the circuit cannot be solved or the driver chatters (defects)
 */
export class YearRun {
  readonly lamp: LampStepper;
  readonly recorder: YearRecorder;

  private readonly input: YearInput;
  private readonly standby_A: number;
  private readonly restart_V: number;
  private readonly cutoff_V: number;
  private readonly needsDusk: boolean;
  /** Capacitor voltage at which a boost leaves discontinuous conduction. */
  private readonly dcmBoundary_V: number;
  private now_s = 0;
  private armed: boolean;
  private nextStep_s = 3600;
  private switchings = 0;

  constructor(params: LampParams, lamp: LampStepper, input: YearInput) {
    const { driver, load } = params;
    this.lamp = lamp;
    this.input = input;
    this.recorder = new YearRecorder(lamp, input.count, input.plan.nights, input.leastLight_lm);
    this.standby_A = driver.standby_A;
    this.restart_V = driver.restart_V;
    this.cutoff_V = driver.cutoff_V;
    this.needsDusk = driver.restartNeedsDusk;
    this.dcmBoundary_V = load.dcmBoundary_V;
    this.armed = !(this.needsDusk && lamp.stopped);
  }

  /** Runs to the plan's end. in: firstNight, from whose noon on; 0 is the plan's beginning */
  run(firstNight = 0): void {
    const { plan, count } = this.input;
    let next = 0;
    if (firstNight > 0) {
      while (!(plan.what[next] === PLAN.noon && plan.value[next] === firstNight)) next++;
    }
    this.now_s = firstNight > 0 ? plan.at_s[next]! : plan.from_s;
    this.lamp.share = 0;
    this.setAboveDcm(false);
    this.recorder.terminal_V = this.lamp.main_V;
    let hourNumber = Math.floor(this.now_s / 3600);
    while (this.now_s < plan.to_s) {
      this.enterHour(hourNumber % count);
      const hourEnd_s = Math.min((hourNumber + 1) * 3600, plan.to_s);
      while (next < plan.count && plan.at_s[next]! < hourEnd_s) {
        this.advanceTo(plan.at_s[next]!);
        this.follow(plan.what[next]!, plan.value[next]!);
        next++;
      }
      this.advanceTo(hourEnd_s);
      if (hourEnd_s === (hourNumber + 1) * 3600)
        this.recorder.columns.capacitorEnd_V[this.recorder.hour] = this.lamp.main_V;
      hourNumber++;
    }
  }

  private enterHour(hour: number): void {
    const { lamp, input, recorder } = this;
    const { columns } = recorder;
    this.recorder.hour = hour;
    this.switchings = 0;
    const light_W_m2 = input.light_W_m2[hour]!;
    const jar_degC = input.jar_degC[hour]!;
    lamp.setConditions(light_W_m2, jar_degC);
    columns.jar_degC[hour] = jar_degC;
    if (columns.capacitorLowest_V[hour] === 0) columns.capacitorLowest_V[hour] = lamp.main_V;
    this.nextStep_s = 3600;
    if (light_W_m2 > 0) {
      this.recorder.bestPower_W = lamp.path.bestPower_W();
      this.recorder.best_V = lamp.path.best_V;
      // The leakage at the reachable voltage is part of what holds it down; two rounds settle it to microvolts.
      let reachable_V = lamp.path.openCircuit_V;
      const standby_A = this.standby_A;
      for (let round = 0; round < 2; round++)
        reachable_V = lamp.path.reachable_V(lamp.drains.leakage_A(reachable_V) + standby_A);
      columns.reachable_V[hour] = reachable_V;
    } else {
      this.recorder.bestPower_W = 0;
    }
  }

  /** Does what the plan says at this instant. */
  private follow(what: number, value: number): void {
    const { lamp, recorder } = this;
    const { nights } = recorder;
    switch (what) {
      case PLAN.noon:
        this.recorder.night = value;
        this.recorder.switchedOnTonight = false;
        this.recorder.beganBelow = false;
        this.recorder.inNight = false;
        break;
      case PLAN.dusk:
        nights.dusk_V[this.recorder.night] = lamp.main_V;
        nights.lowest_V[this.recorder.night] = lamp.main_V;
        this.recorder.inNight = true;
        this.armed = true;
        if (lamp.stopped && lamp.share > 0 && lamp.main_V >= this.restart_V) {
          lamp.stopped = false;
          this.readLight();
        }
        break;
      case PLAN.dawn:
        nights.dawn_V[this.recorder.night] = lamp.main_V;
        this.recorder.inNight = false;
        break;
      case PLAN.share:
        this.switchTo(value);
        break;
      case PLAN.promise:
        this.recorder.promised = value === 1;
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
    if (share > 0 && wasOff && !this.recorder.switchedOnTonight) {
      this.recorder.switchedOnTonight = true;
      this.recorder.beganBelow = lamp.stopped;
      this.recorder.duskLight_lm = this.recorder.light_lm;
    }
  }

  /** Light and terminal voltage after a change at this instant; stops at once where the cut-off is already reached. */
  private readLight(): void {
    const { lamp } = this;
    if (lamp.share > 0 && !lamp.stopped) {
      this.setAboveDcm(lamp.main_V >= this.dcmBoundary_V);
      lamp.settle();
      if (lamp.terminal_V <= this.cutoff_V) {
        lamp.stopped = true;
        this.armed = !this.needsDusk;
      }
    }
    lamp.settle();
    this.recorder.terminal_V = lamp.terminal_V;
    this.recorder.light_lm = lamp.share > 0 && !lamp.stopped ? lamp.light_lm(this.recorder.terminal_V) : 0;
  }

  private setAboveDcm(above: boolean): void {
    this.recorder.aboveDcm = above;
    this.lamp.draw.setAbove(above);
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
            `the circuit cannot be solved in hour ${this.recorder.hour} at a capacitor voltage of ${lamp.main_V} V`,
          );
        }
      }
      const crossed_V = this.thresholdCrossed_V();
      if (!Number.isNaN(crossed_V)) step_s = this.locate(step_s, crossed_V);
      this.nextStep_s =
        lamp.error_V < 0.1 * input.tolerance_V
          ? 3 * step_s
          : step_s * 0.9 * Math.cbrt(input.tolerance_V / lamp.error_V);
      this.recorder.take(step_s, this.now_s);
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
      return this.armed && this.recorder.terminal_V < this.restart_V && end_V >= this.restart_V
        ? this.restart_V
        : Number.NaN;
    }
    if (lamp.share === 0) return Number.NaN;
    if (this.recorder.aboveDcm ? end_V < this.dcmBoundary_V : end_V > this.dcmBoundary_V)
      return this.dcmBoundary_V;
    return end_V < this.cutoff_V ? this.cutoff_V : Number.NaN;
  }

  /** Shortens the tried step until it ends at the threshold. */
  private locate(whole_s: number, threshold_V: number): number {
    const { lamp } = this;
    let low_s = 0;
    let atLow = this.recorder.terminal_V - threshold_V;
    let high_s = whole_s;
    let atHigh = lamp.terminal_V - threshold_V;
    // A start already beyond the threshold (after a switch) has nothing to search.
    if (atLow * atHigh > 0) return whole_s;
    let step_s = whole_s;
    let side = 0;
    for (let round = 0; round < 60 && Math.abs(atHigh) > EVENT_V && high_s - low_s > 1e-3; round++) {
      step_s = (low_s * atHigh - high_s * atLow) / (atHigh - atLow);
      if (!(step_s > low_s && step_s < high_s)) step_s = (low_s + high_s) / 2;
      if (!lamp.tryStep(step_s))
        throw new Error(`the circuit cannot be solved in hour ${this.recorder.hour}`);
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
        `the driver chatters at ${threshold_V} V in hour ${this.recorder.hour}: restart too near the cut-off`,
      );
    }
    if (lamp.stopped) {
      lamp.stopped = false;
      this.recorder.beganBelow = false;
      this.readLight();
    } else if (threshold_V === this.cutoff_V) {
      lamp.stopped = true;
      this.armed = !this.needsDusk;
      this.recorder.light_lm = 0;
      lamp.settle();
      this.recorder.terminal_V = lamp.terminal_V;
    } else {
      this.setAboveDcm(!this.recorder.aboveDcm);
      lamp.settle();
      this.recorder.terminal_V = lamp.terminal_V;
      this.recorder.light_lm = lamp.light_lm(this.recorder.terminal_V);
    }
    this.nextStep_s = 3600;
  }
}
