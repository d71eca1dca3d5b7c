import { KINK_V, type LampStepper, LEAST_STEP_S, SHORTEST_STEP_S } from './LampStepper.ts';
import type { NightRecorder } from './NightRecorder.ts';

/** Stop, restart and every kink of a law are met to this voltage: milliseconds of a night. */
const EVENT_V = 1e-8;
/** Where it is crossed so fast that this does not come within a millisecond, to this. */
const EVENT_S = 1e-3;
const FAST_EVENT_V = 1e-4;

/**
 * What a step may end at; 'standby' is the knee of what an unlit driver draws, at the cut-off, 'unsolved' where it must be
 * looked for anew, from a shorter step.
 */
export type Threshold =
  | 'none'
  | 'restart'
  | 'cutoff'
  | 'dcm-boundary'
  | 'limiter'
  | 'reach'
  | 'standby'
  | 'unsolved';

/** Finds where a tried step has carried the lamp across a threshold, and the shorter step that ends there. */
export class Thresholds {
  readonly restart_V: number;
  readonly cutoff_V: number;
  /** Terminal voltage above which a boost no longer works in discontinuous conduction. */
  readonly dcmBoundary_V: number;
  /** A stopped lamp is not to restart before the next dusk. */
  latched = false;
  /** How far below its boundary a boost comes back to discontinuous conduction. */
  band_V = 0;

  private readonly lamp: LampStepper;
  private readonly recorder: NightRecorder;
  private readonly limiter_V: number;
  private readonly watchesAlways: boolean;

  constructor(lamp: LampStepper, recorder: NightRecorder) {
    const { driver, load, capacitor } = lamp.lamp;
    this.lamp = lamp;
    this.recorder = recorder;
    this.restart_V = driver.restart_V;
    this.cutoff_V = driver.cutoff_V;
    this.dcmBoundary_V = load.dcmBoundary_V;
    this.limiter_V = capacitor.limiter_V;
    this.watchesAlways = driver.watchesAlways;
  }

  /**
   * The first of the thresholds that the tried step has carried the lamp across; the step then ends there.
   * in: passKinks, whether kinks of laws are passed over
   */
  meetFirst(passKinks: boolean): Threshold {
    const kink = passKinks ? 'none' : this.meetKink();
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

  /** Tries the step that ends at a threshold; 'unsolved' where none of this length is found. */
  private tries(threshold: Threshold): Threshold {
    const { lamp } = this;
    return lamp.tryStep() || lamp.error_V < Number.POSITIVE_INFINITY ? threshold : 'unsolved';
  }
}
