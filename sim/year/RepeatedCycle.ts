import type { LampStepper } from './LampStepper.ts';
import type { NightRecorder } from './NightRecorder.ts';
import type { HourRecords } from './YearRun.ts';

/** Something that steps are added to: a place of a column. */
export interface Sum {
  column: Float64Array;
  at: number;
}

/** How far the delayed branches may move while cycles are repeated unseen, at first and with each repetition. */
const FIRST_V = 1e-3;
const GROWTH = 1.3;

/**
 * The cycle of a driver that stops and restarts many times an hour, as one does whose cell gives less than the driver
 * draws and whose capacitor holds but seconds of it. Light and temperature stay for the hour, so that one cycle is like
 * the next: what one added to all sums is added again as often as it fits.
 *
 * `forget` where something else changes; `restart` at each restart.
 * valid: the capacitor ends a cycle where it began it, but for the 1e-8 V to which a restart is met, which count as
 *   drawn; the delayed branches move in a straight line
 */
export class RepeatedCycle {
  private readonly lamp: LampStepper;
  private readonly recorder: NightRecorder;
  private readonly hours: HourRecords;
  /** At the last restart: the instant, NaN where there was none; every sum; voltages and charge. */
  private began_s = Number.NaN;
  private sums: (Sum & { value: number })[] = [];
  private beyondFormula_s = 0;
  private one_V = 0;
  private two_V = 0;
  private main_C = 0;
  private farthest_V = FIRST_V;

  constructor(lamp: LampStepper, recorder: NightRecorder, hours: HourRecords) {
    this.lamp = lamp;
    this.recorder = recorder;
    this.hours = hours;
  }

  beginHour(): void {
    this.farthest_V = FIRST_V;
  }

  forget(): void {
    this.began_s = Number.NaN;
  }

  /**
   * Repeats the cycle that ends with a restart, if one began with the last.
   * in: now_s; left_s, until something else changes
   * out: seconds that the repetitions take
   */
  restart(now_s: number, left_s: number): number {
    const cycle_s = now_s - this.began_s;
    const times = cycle_s > 0 ? this.timesWithin(left_s / cycle_s) : 0;
    const repeated_s = times > 0 ? times * cycle_s : 0;
    if (times > 0) this.repeat(times);
    this.remember(now_s + repeated_s);
    return repeated_s;
  }

  /** Whole cycles that fit, one left over, with the delayed branches moving but little. */
  private timesWithin(fitting: number): number {
    const { delayed } = this.lamp;
    const moved_V = Math.max(
      Math.abs(delayed.one.voltage_V - this.one_V),
      Math.abs(delayed.two.voltage_V - this.two_V),
    );
    const times = Math.floor(Math.min(fitting - 1, this.farthest_V / moved_V));
    this.farthest_V *= GROWTH;
    return Math.max(times, 0);
  }

  private repeat(times: number): void {
    const { lamp, recorder } = this;
    const { ledger } = this.hours;
    const { one, two } = lamp.delayed;
    ledger?.written();
    for (const { column, at, value } of this.sums) column[at]! += times * (column[at]! - value);
    recorder.beyondFormula_s += times * (recorder.beyondFormula_s - this.beyondFormula_s);
    ledger?.takeCharge(times * (lamp.mainCharge_C() - this.main_C));
    one.voltage_V += times * (one.voltage_V - this.one_V);
    two.voltage_V += times * (two.voltage_V - this.two_V);
  }

  private remember(now_s: number): void {
    const { lamp, recorder } = this;
    const { times, ledger } = this.hours;
    this.began_s = now_s;
    const sums = [...recorder.sums(), ...(times?.sums() ?? []), ...(ledger?.written() ?? [])];
    this.sums = sums.map(({ column, at }) => ({ column, at, value: column[at]! }));
    this.beyondFormula_s = recorder.beyondFormula_s;
    this.one_V = lamp.delayed.one.voltage_V;
    this.two_V = lamp.delayed.two.voltage_V;
    this.main_C = lamp.mainCharge_C();
  }
}
