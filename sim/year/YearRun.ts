import { exp } from '../common/elementary/exp.ts';
import { power } from '../common/elementary/power.ts';
import type { HourLedger } from './HourLedger.ts';
import type { HourTimes } from './HourTimes.ts';
import { KINK_V, type LampStepper, LEAST_STEP_S, SHORTEST_STEP_S } from './LampStepper.ts';
import { type NightPlan, PLAN } from './NightPlan.ts';
import { NightRecorder } from './NightRecorder.ts';
import { RepeatedCycle } from './RepeatedCycle.ts';

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
/** Stop, restart and every kink of a law are met to this voltage: milliseconds of a night. */
const EVENT_V = 1e-8;
/** Where it is crossed so fast that this does not come within a millisecond, to this. */
const EVENT_S = 1e-3;
const FAST_EVENT_V = 1e-4;
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

/** What a step may end at; 'standby' is the knee of what an unlit driver draws, at the cut-off. */
type Threshold =
  | 'none'
  | 'restart'
  | 'cutoff'
  | 'dcm-boundary'
  | 'limiter'
  | 'reach'
  | 'standby'
  | 'unsolved';

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
  private readonly restart_V: number;
  private readonly cutoff_V: number;
  private readonly limiter_V: number;
  private readonly needsDusk: boolean;
  private readonly watchesAlways: boolean;
  /** Terminal voltage above which a boost no longer works in discontinuous conduction. */
  private readonly dcmBoundary_V: number;
  private now_s = 0;
  private hour = 0;
  /** Stopped, and not to restart before the next dusk. */
  private latched: boolean;
  private nextStep_s = HOUR_S;
  private switchings = 0;
  private restarts = 0;
  private hourSteps = 0;
  private readonly cycle: RepeatedCycle;
  private readonly tolerance_V: number;
  /** How far below its boundary a boost comes back to discontinuous conduction. */
  private band_V = 0;

  /** in: lamp; input; hours, what adds up what is wanted of them */
  constructor(lamp: LampStepper, input: YearInput, hours: HourRecords = {}) {
    const { driver, load, capacitor } = lamp.lamp;
    this.lamp = lamp;
    this.input = input;
    this.times = hours.times;
    this.ledger = hours.ledger;
    this.recorder = new NightRecorder(lamp, input.plan.nights, input.leastLight_lm);
    this.restart_V = driver.restart_V;
    this.cutoff_V = driver.cutoff_V;
    this.limiter_V = capacitor.limiter_V;
    this.needsDusk = driver.restartNeedsDusk;
    this.watchesAlways = driver.watchesAlways;
    this.dcmBoundary_V = load.dcmBoundary_V;
    this.latched = this.needsDusk && lamp.stopped;
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
    this.band_V = 0;
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
        this.latched = false;
        if (lamp.stopped && lamp.main_V >= this.restart_V) this.restart();
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
      this.setBeyond(lamp.main_V >= this.dcmBoundary_V);
      lamp.settle();
      if (recorder.beyondDcm && lamp.terminal_V < this.dcmBoundary_V) {
        this.setBeyond(false);
        lamp.settle();
      }
      // Far below the cut-off a driver of constant power would draw what no capacitor gives: nothing is read of that.
      const most_V = lamp.main_V + lamp.ohm * lamp.curve.photocurrent_A;
      if (lamp.terminal_V <= this.cutoff_V || most_V <= this.cutoff_V) {
        this.stop();
        lamp.settle();
      }
    } else lamp.settle();
    recorder.terminal_V = lamp.terminal_V;
    recorder.light_lm = lamp.endLight_lm;
    this.nextStep_s = HOUR_S;
  }

  private stop(): void {
    this.lamp.stopped = true;
    this.latched = this.needsDusk;
  }

  private restart(): void {
    this.lamp.stopped = false;
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
        threshold = this.meetFirst();
      } while (threshold === 'unsolved');
      const { step_s } = lamp;
      if (step_s < left_s) this.nextStep_s = step_s * this.growth();
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

  /** By how much the next step may be longer than the last: its error grows with the fourth power, what is allowed in proportion. */
  private growth(): number {
    const { lamp } = this;
    const { allowed_V } = lamp;
    return lamp.error_V < 0.05 * allowed_V ? 2.5 : 0.8 * power(allowed_V / lamp.error_V, 1 / 3);
  }

  private shorten(): void {
    const { lamp } = this;
    if (!(lamp.step_s > SHORTEST_STEP_S)) {
      throw new UnsolvedCircuit(this.hour, lamp.main_V);
    }
    const finite = Number.isFinite(lamp.error_V);
    const factor = finite ? shorterBy(lamp.error_V / lamp.allowed_V, lamp.stiff - 1) : 0.3;
    const wanted_s = lamp.step_s * factor;
    const least_s = finite && lamp.step_s > LEAST_STEP_S ? LEAST_STEP_S : SHORTEST_STEP_S;
    lamp.step_s = Math.max(wanted_s, least_s);
  }

  /** The first of the thresholds that the tried step has carried the lamp across; the step then ends there. */
  private meetFirst(): Threshold {
    // Kinks that are met all the time are passed over.
    const kink = this.switchings > KINKS_AN_HOUR ? 'none' : this.meetKink();
    if (kink === 'unsolved') return kink;
    const switching = this.switching();
    return switching === 'none' ? kink : this.locate(switching);
  }

  /** The first kink of a law that the tried step has carried the lamp across. */
  private meetKink(): Threshold {
    const { lamp, cutoff_V } = this;
    let first: Threshold = 'none';
    // Whatever is crossed in a step cut short by another lies before that.
    const over_V = lamp.end_V - this.limiter_V;
    if (lamp.drains.limiting ? over_V < -KINK_V : over_V > KINK_V) first = this.locate('limiter');
    if (first !== 'unsolved' && !lamp.charging && lamp.terminal_V < lamp.curve.highest_V)
      first = this.locate('reach');
    const from_V = lamp.main_V - cutoff_V;
    const to_V = lamp.end_V - cutoff_V;
    const crosses = from_V > EVENT_V ? to_V < -EVENT_V : from_V < -EVENT_V && to_V > EVENT_V;
    return first !== 'unsolved' && !lamp.lit && crosses ? this.locate('standby') : first;
  }

  /** Where the tried step has carried the driver to switch. */
  private switching(): Threshold {
    const { lamp } = this;
    const end_V = lamp.terminal_V;
    if (lamp.stopped) {
      return !this.latched && this.recorder.terminal_V < this.restart_V && end_V >= this.restart_V
        ? 'restart'
        : 'none';
    }
    if (lamp.glow === 0) return this.watchesAlways && end_V < this.cutoff_V ? 'cutoff' : 'none';
    if (this.recorder.beyondDcm ? end_V < this.dcmBoundary_V - this.band_V : end_V > this.dcmBoundary_V)
      return 'dcm-boundary';
    return end_V < this.cutoff_V ? 'cutoff' : 'none';
  }

  /** How far the tried step's end lies above a threshold, volts. */
  private above_V(threshold: Threshold): number {
    const { lamp } = this;
    switch (threshold) {
      case 'limiter':
        return lamp.end_V - this.limiter_V;
      case 'standby':
        return lamp.end_V - this.cutoff_V;
      case 'reach':
        return lamp.terminal_V - lamp.curve.highest_V;
      case 'restart':
        return lamp.terminal_V - this.restart_V;
      case 'cutoff':
        return lamp.terminal_V - this.cutoff_V;
      default:
        return lamp.terminal_V - this.dcmBoundary_V + (this.recorder.beyondDcm ? this.band_V : 0);
    }
  }

  /** Shortens the tried step until it ends at the threshold, by the Illinois form of the false position; out: threshold */
  private locate(threshold: Threshold): Threshold {
    const { lamp } = this;
    let low_s = 0;
    let atHigh = this.above_V(threshold);
    const inner = threshold === 'limiter' || threshold === 'standby';
    let atLow = atHigh - (inner ? lamp.rise_V : lamp.terminal_V - this.recorder.terminal_V);
    let high_s = lamp.step_s;
    // A start already beyond the threshold, after a switch, has nothing to search: it passes at once.
    if (atLow * atHigh > 0) {
      lamp.step_s = Math.min(lamp.step_s, LEAST_STEP_S);
      return this.tries(threshold);
    }
    let side = 0;
    for (let round = 0; round < 60; round++) {
      const off_V = Math.abs(atHigh);
      const near_s = off_V <= FAST_EVENT_V ? EVENT_S : SHORTEST_STEP_S;
      if (off_V <= EVENT_V || high_s - low_s <= near_s) break;
      const guess_s = (low_s * atHigh - high_s * atLow) / (atHigh - atLow);
      lamp.step_s = guess_s > low_s && guess_s < high_s ? guess_s : (low_s + high_s) / 2;
      if (this.tries(threshold) === 'unsolved') return 'unsolved';
      const at = this.above_V(threshold);
      if (at * atHigh > 0 || at === 0) {
        high_s = lamp.step_s;
        atHigh = at;
        if (side === 1) atLow /= 2;
        side = 1;
      } else {
        low_s = lamp.step_s;
        atLow = at;
        if (side === -1) atHigh /= 2;
        side = -1;
      }
    }
    lamp.step_s = high_s;
    return this.tries(threshold);
  }

  /** Tries the step that ends at a threshold; where it cannot be solved, a shorter one must be looked for anew. */
  private tries(threshold: Threshold): Threshold {
    const { lamp } = this;
    if (lamp.tryStep() || lamp.error_V < Number.POSITIVE_INFINITY) return threshold;
    this.shorten();
    return 'unsolved';
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
        if (this.switchings > FREE_SWITCHINGS) this.band_V += BAND_STEP_V;
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

/**
 * By how much a step that misses what is allowed so many times over is to be shorter: its error goes with the fourth power
 * of the way, which one that settles is through with early.
 */
function shorterBy(times: number, settles: number): number {
  const whole = 1 - exp(-settles);
  let factor = 0.7;
  for (; factor > 0.1; factor *= 0.8) {
    const way = settles > 0.1 ? (1 - exp(-factor * settles)) / whole : factor;
    if (way * way * way * way * times < 0.7 * Math.sqrt(factor)) break;
  }
  return factor;
}
