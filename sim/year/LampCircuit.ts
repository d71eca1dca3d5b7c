import { capacitorCharge_C } from '../lamp/capacitor/step.ts';
import { LitLoad } from '../lamp/loadTable.ts';
import type { LampParams } from '../lamp/params.ts';
import { ChargingCurve } from './ChargingCurve.ts';
import { DelayedBranches } from './DelayedBranches.ts';
import { ParasiticLoads } from './ParasiticLoads.ts';

/**
 * The lamp's circuit: its parts, its state, and what it is to do. Cell and driver meet at the terminals, behind the
 * capacitor's series resistance; leakage, balancing, limiter and standby draw from the inner voltage.
 *
 * source: ZubietaBonert2000 (capacitor)
 */
export class LampCircuit {
  readonly lamp: LampParams;
  readonly curve: ChargingCurve;
  readonly load: LitLoad;
  readonly drains: ParasiticLoads;
  readonly delayed: DelayedBranches;
  /** Capacitance at 0 V and its rise per volt; series resistance. */
  readonly c0: number;
  readonly c1: number;
  ohm: number;
  /** The same before temperature changes it. */
  private readonly usualOhm: number;

  // State.
  main_V = 0;
  terminal_V = 0;
  /** Rate at the end of the step before, V/s. */
  lastRate = 0;
  /** Driver's current, and terminals, at the present state. */
  startLoad_A = 0;
  startTerminal_V = 0;

  // Mode, set by the caller.
  /** Share of the time the LED is on, and of its full light that it shows while on; see `setDuty`. */
  duty = 0;
  glow = 0;
  /** Of the driver's current, what is drawn on average; 0 with the LED off. */
  share = 0;
  /** The driver has stopped at its cut-off and waits; see `setStopped`. */
  stopped = false;
  lit = false;
  /** The LED is on, or would be if motion came. */
  ready = false;

  // What holds for the whole of a step.
  /** The cell gives current. */
  charging = false;

  constructor(lamp: LampParams) {
    const { capacitor } = lamp;
    this.lamp = lamp;
    this.curve = new ChargingCurve(lamp);
    this.load = new LitLoad(lamp.load);
    this.drains = new ParasiticLoads(lamp);
    this.delayed = new DelayedBranches(capacitor.delayed);
    this.c0 = capacitor.capacitance_F;
    this.c1 = capacitor.rise_F_V;
    this.usualOhm = capacitor.series_ohm;
    this.ohm = this.usualOhm;
    this.setMode();
  }

  /** Puts the whole capacitor, delayed branches too, at one voltage. */
  restAt(capacitor_V: number): void {
    this.main_V = capacitor_V;
    this.delayed.restAt(capacitor_V);
    this.terminal_V = capacitor_V;
    this.lastRate = 0;
  }

  /** Sets the schedule's share of the time, and of the light, from here on. in: duty; glow, 0 where the LED is off */
  setDuty(duty: number, glow: number): void {
    this.duty = duty;
    this.glow = glow;
    this.share = duty * glow;
    this.setMode();
  }

  /** Stops the driver at its cut-off, where it waits, or starts it again. */
  setStopped(stopped: boolean): void {
    this.stopped = stopped;
    this.setMode();
  }

  private setMode(): void {
    const { driver } = this.lamp;
    this.ready = this.glow > 0 && !this.stopped;
    this.lit = this.ready && this.duty > 0;
    this.load.share = this.share;
    const waiting_A = this.lit ? (1 - this.duty) * driver.standby_A : driver.standby_A;
    this.drains.standby_A = this.stopped ? driver.belowCutoff_A : waiting_A;
  }

  /** Charge of the main branch, coulombs. */
  mainCharge_C(): number {
    return capacitorCharge_C(this.lamp.capacitor, this.main_V);
  }

  /** Charge of all branches, coulombs. */
  wholeCharge_C(): number {
    return this.mainCharge_C() + this.delayed.whole_C();
  }

  /** Sets light on the cell and the temperature of everything. in: as of the curve */
  setHour(hours: Float64Array, hour: number): void {
    const { curve } = this;
    const share = curve.photocurrent_A > 0 ? curve.in_A / curve.photocurrent_A : 0;
    curve.setHour(hours, hour);
    curve.in_A = share * curve.photocurrent_A;
    this.drains.warming = curve.warming;
    this.ohm = this.usualOhm * curve.seriesGrowth;
  }
}
