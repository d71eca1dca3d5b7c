import { power } from '../common/elementary/power.ts';
import type { HourLedger } from './HourLedger.ts';
import type { HourTimes } from './HourTimes.ts';
import type { LampStepper } from './LampStepper.ts';
import { type NightPlan, PLAN } from './NightPlan.ts';
import { NightRecorder } from './NightRecorder.ts';
import { RepeatedCycle } from './RepeatedCycle.ts';
import { growth, shorterStep_s } from './stepLength.ts';
import { type Threshold, Thresholds } from './Thresholds.ts';

/** More events than this in an hour: those that only spare a step a kink of a law are no longer met. */
const KINKS_AN_HOUR = 300;
/** From so many stops and restarts in an hour on, cycles are repeated. */
const FOLLOWED_CYCLES = 12;
/** An hour that takes more steps is followed ever more coarsely: what is allowed doubles with each so many. */
const FREE_STEPS = 3000;
const STEPS_TO_DOUBLE = 300;
/**
 * A boost whose stated limit draws more than its formula, fed by a strong cell, would hold the capacitor at the boundary,
 * drawing now by one, now by the other. After some switchings in an hour each widens the band by this, so that an hour
 * has at most a hundred.
 */
const FREE_SWITCHINGS = 4;
const BAND_STEP_V = 1e-3;
const HOUR_S = 3600;

/** What the loop runs over: the circuit's light and temperature by the hour, and the promise. */
export interface YearInput {
  count: number;
  /** As `circuitHours` makes them. */
  hours: Float64Array;
  jar_degC: Float64Array;
  plan: NightPlan;
  /** Least light that counts as lit. */
  leastLight_lm: number;
}

/** What a pass keeps of its hours; of its nights it keeps all anyway. */
export interface HourRecords {
  times?: HourTimes;
  ledger?: HourLedger;
}

/** A circuit that no step, however short, follows: parts far from any that are built. */
export class UnsolvedCircuit extends Error {
  /** Hour of the record, and the capacitor's voltage in it. */
  readonly hour: number;
  readonly capacitor_V: number;

  constructor(hour: number, capacitor_V: number) {
    super(`the circuit cannot be followed in hour ${hour} at a capacitor voltage of ${capacitor_V} V`);
    this.hour = hour;
    this.capacitor_V = capacitor_V;
  }
}

/**
 * One pass of a lamp over a record, hour by hour, with the instants of the plan, the stop at the cut-off, the restart
 * and the kinks of the laws met inside the hours. Its nights are in `recorder`, its end state that of the stepper.
 *
 * throws: UnsolvedCircuit where the circuit cannot be followed
 */
export class YearRun {
  readonly lamp: LampStepper;
  readonly recorder: NightRecorder;

  private readonly input: YearInput;
  private readonly times: HourTimes | undefined;
  private readonly ledger: HourLedger | undefined;
  private readonly thresholds: Thresholds;
  private readonly needsDusk: boolean;
  private now_s = 0;
  private hour = 0;
  private nextStep_s = HOUR_S;
  private switchings = 0;
  private restarts = 0;
  private hourSteps = 0;
  private readonly cycle: RepeatedCycle;
  private readonly tolerance_V: number;

  /** in: lamp; input; hours, what adds up what is wanted of them */
  constructor(lamp: LampStepper, input: YearInput, hours: HourRecords = {}) {
    this.lamp = lamp;
    this.input = input;
    this.times = hours.times;
    this.ledger = hours.ledger;
    this.recorder = new NightRecorder(lamp, input.plan.nights, input.leastLight_lm);
    this.thresholds = new Thresholds(lamp, this.recorder);
    this.needsDusk = lamp.lamp.driver.restartNeedsDusk;
    this.thresholds.latched = this.needsDusk && lamp.stopped;
    this.cycle = new RepeatedCycle(lamp, this.recorder, hours);
    this.tolerance_V = lamp.tolerance_V;
  }

  /** Runs to the plan's end, or to an earlier instant of it. in: firstNight, from whose noon on; 0 is the plan's beginning */
  run(firstNight = 0, until_s = Number.POSITIVE_INFINITY): void {
    const { plan, count } = this.input;
    let next = firstNight > 0 ? noonOf(plan, firstNight) : 0;
    const to_s = Math.min(plan.to_s, until_s);
    this.now_s = firstNight > 0 ? plan.at_s[next]! : plan.from_s;
    this.lamp.setDuty(0, 0);
    this.setBeyond(false);
    this.recorder.terminal_V = this.lamp.main_V;
    let hourNumber = Math.floor(this.now_s / HOUR_S);
    while (this.now_s < to_s) {
      this.enterHour(hourNumber % count);
      const wholeEnd_s = (hourNumber + 1) * HOUR_S;
      const hourEnd_s = Math.min(wholeEnd_s, to_s);
      while (next < plan.count && plan.at_s[next]! < hourEnd_s) {
        const at_s = plan.at_s[next]!;
        const what = plan.what[next]!;
        // Noon and dawn change nothing of a lamp that is off: they split no step.
        if (this.isQuiet() && what === PLAN.dawn) this.recorder.awaitDawn(at_s);
        else if (!(this.isQuiet() && what === PLAN.noon)) this.advanceTo(at_s);
        this.follow(what, plan.value[next]!, plan.glow[next]!);
        next++;
      }
      this.advanceTo(hourEnd_s);
      this.ledger?.endHour(hourEnd_s === wholeEnd_s);
      hourNumber++;
    }
    this.ledger?.write();
  }

  private isQuiet(): boolean {
    return this.lamp.glow === 0 && !this.recorder.promised;
  }

  private enterHour(hour: number): void {
    const { lamp, input } = this;
    this.hour = hour;
    this.switchings = 0;
    this.restarts = 0;
    this.hourSteps = 0;
    lamp.tolerance_V = this.tolerance_V;
    this.cycle.beginHour();
    this.thresholds.band_V = 0;
    this.nextStep_s = HOUR_S;
    lamp.setHour(input.hours, hour);
    this.times?.beginHour(hour);
    this.ledger?.beginHour(hour);
  }

  /** Does what the plan says at this instant. */
  private follow(what: number, value: number, glow: number): void {
    const { lamp, recorder } = this;
    switch (what) {
      case PLAN.noon:
        recorder.beginNight(value);
        break;
      case PLAN.dusk:
        recorder.beginDusk();
        this.thresholds.latched = false;
        if (lamp.stopped && lamp.main_V >= this.thresholds.restart_V) this.restart();
        break;
      case PLAN.dawn:
        if (!recorder.awaitsDawn) recorder.nights.dawn_V[recorder.night] = lamp.main_V;
        recorder.inNight = recorder.awaitsDawn;
        break;
      case PLAN.share:
        this.switchTo(value, glow);
        break;
      case PLAN.promise:
        recorder.promised = value === 1;
        break;
    }
  }

  private switchTo(duty: number, glow: number): void {
    const { lamp, recorder } = this;
    const wasOff = lamp.glow === 0;
    const wasStopped = lamp.stopped;
    lamp.setDuty(duty, glow);
    this.readLight();
    if (glow > 0 && wasOff) recorder.switchOn(wasStopped);
  }

  /** Light and terminal voltage after a change at this instant; stops at once where the cut-off is already reached. */
  private readLight(): void {
    const { lamp, recorder } = this;
    if (lamp.glow > 0 && !lamp.stopped) {
      this.setBeyond(lamp.main_V >= this.thresholds.dcmBoundary_V);
      lamp.settle();
      if (recorder.beyondDcm && lamp.terminal_V < this.thresholds.dcmBoundary_V) {
        this.setBeyond(false);
        lamp.settle();
      }
      // Far below the cut-off a driver of constant power would draw what no capacitor gives: nothing is read of that.
      const most_V = lamp.main_V + lamp.ohm * lamp.curve.photocurrent_A;
      if (lamp.terminal_V <= this.thresholds.cutoff_V || most_V <= this.thresholds.cutoff_V) {
        this.stop();
        lamp.settle();
      }
    } else lamp.settle();
    recorder.terminal_V = lamp.terminal_V;
    recorder.light_lm = lamp.endLight_lm;
    this.nextStep_s = HOUR_S;
  }

  private stop(): void {
    this.lamp.setStopped(true);
    this.thresholds.latched = this.needsDusk;
  }

  private restart(): void {
    this.lamp.setStopped(false);
    this.recorder.restart();
    this.readLight();
  }

  private setBeyond(beyond: boolean): void {
    this.recorder.beyondDcm = beyond;
    this.lamp.load.setAbove(beyond);
  }

  private advanceTo(target_s: number): void {
    const { lamp } = this;
    let left_s = target_s - this.now_s;
    this.cycle.forget();
    while (left_s > 1e-9) {
      lamp.step_s = Math.min(left_s, this.nextStep_s);
      let threshold: Threshold;
      do {
        while (!lamp.tryStep()) this.shorten();
        threshold = this.thresholds.meetFirst(this.switchings > KINKS_AN_HOUR);
        if (threshold === 'unsolved') this.shorten();
      } while (threshold === 'unsolved');
      const { step_s } = lamp;
      if (step_s < left_s) this.nextStep_s = step_s * growth(lamp);
      this.ledger?.take();
      this.recorder.take(step_s, this.now_s);
      this.times?.take(lamp, this.recorder);
      lamp.accept();
      this.now_s += step_s;
      if (++this.hourSteps > FREE_STEPS) this.coarsen();
      if (threshold !== 'none') this.pass(threshold);
      if (threshold === 'restart') this.repeatCycle(target_s);
      left_s = target_s - this.now_s;
    }
    this.now_s = target_s;
  }

  private coarsen(): void {
    if (this.hourSteps === FREE_STEPS + 1) this.recorder.coarseHours++;
    this.lamp.tolerance_V = this.tolerance_V * power(2, (this.hourSteps - FREE_STEPS) / STEPS_TO_DOUBLE);
  }

  /** A driver that restarts all the time: its cycle again and again, as far as nothing else changes. */
  private repeatCycle(target_s: number): void {
    if (++this.restarts < FOLLOWED_CYCLES) return;
    const left_s = Math.min(target_s, this.recorder.awaited_s) - this.now_s;
    this.now_s += this.cycle.restart(this.now_s, left_s);
  }

  private shorten(): void {
    const { lamp } = this;
    const step_s = shorterStep_s(lamp);
    if (step_s === undefined) throw new UnsolvedCircuit(this.hour, lamp.main_V);
    lamp.step_s = step_s;
  }

  /** Changes what holds, at a threshold. */
  private pass(threshold: Threshold): void {
    const { lamp, recorder } = this;
    this.nextStep_s = HOUR_S;
    this.switchings++;
    switch (threshold) {
      case 'restart':
        this.restart();
        break;
      case 'cutoff':
        this.stop();
        lamp.settle();
        recorder.light_lm = 0;
        recorder.terminal_V = lamp.terminal_V;
        break;
      case 'dcm-boundary':
        this.setBeyond(!recorder.beyondDcm);
        if (this.switchings > FREE_SWITCHINGS) this.thresholds.band_V += BAND_STEP_V;
        lamp.settle();
        recorder.terminal_V = lamp.terminal_V;
        recorder.light_lm = lamp.endLight_lm;
        break;
    }
  }
}

function noonOf(plan: NightPlan, night: number): number {
  let next = 0;
  while (!(plan.what[next] === PLAN.noon && plan.value[next] === night)) next++;
  return next;
}
