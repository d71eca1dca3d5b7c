import { capacitorCharge_C } from '../lamp/capacitor/step.ts';
import { LitLoad } from '../lamp/loadTable.ts';
import type { LampParams } from '../lamp/params.ts';
import { ChargingCurve } from './ChargingCurve.ts';
import { DelayedBranches } from './DelayedBranches.ts';
import { litStep, restStep } from './darkStep.ts';
import { ParasiticLoads } from './ParasiticLoads.ts';
import { VoltagePath } from './VoltagePath.ts';

/** The expansion may lie off the middle of the path by this, and by this share of the path. */
const CENTRED_V = 2e-3;
const CENTRED_SHARE = 0.3;
const MOST_CENTRINGS = 4;
/** Farthest the voltage goes in one step, and is guessed ahead. */
const FARTHEST_V = 0.5;
const AHEAD_V = 0.06;
/** A step whose third order tells of less than this share of what is allowed is taken as it is. */
const UNCORRECTED = 0.1;
/** Up to this share of what is allowed, what the fourth order may add is taken without a look at the step's ends. */
const UNLOOKED = 0.5;
/** What is left of a correction by the defects at a step's ends, as a share of it: measured, see the tests. */
const LEFT_OF_CORRECTION = 0.1;
/** The same of a lit step, whose driver's curve is a table's. */
const LEFT_WHEN_LIT = 1.5;
/** What a stiff step adds to that share. */
const LEFT_WHEN_STIFF = 0.2;
/** The same of the uneven flow into delayed branches. */
const LEFT_OF_DELAYED = 0.15;
const LEFT_OF_DELAYED_LIT = 0.4;
/** How near looks come to the voltage asked for: an expansion only has to lie by the path, ends are reached by a series. */
const CENTRE_NEAR_V = 0.03;
const PROBE_NEAR_V = 2e-3;
/** Where the last order of an expansion counts for more than this, a current is looked up. */
const EXPANDED_SHARE = 1e-4;
/** A step less stiff than this is slow: off its middle, it may be taken while its error stays below what is allowed. */
const SETTLES = 1.5;
/** How far two orders may be alike by chance: so much of the third stands for what both leave out. */
const ALIKE = 0.1;
/** Below this what is allowed shrinks no further: what looked-up currents miss does not either. */
const SHORT_STEP_S = 1;
/** So short a step is taken while its error is no more than this; and the shortest of all whatever its error. */
const SHORT_STEP_ERROR_V = 1e-3;
export const LEAST_STEP_S = 1e-3;
export const SHORTEST_STEP_S = 1e-7;
/** So near its voltage a limiter draws or not by where the capacitor is going. */
export const KINK_V = 1e-7;
const HOUR_S = 3600;

/**
 * The lamp's circuit and its state, moved on by one step at a time under constant light and temperature.
 *
 * All currents are expanded to third order about a point near the middle of the step, which lies exactly on the
 * circuit's curve (`ChargingCurve`); the voltage follows the closed path of `VoltagePath`, corrected by what of the third
 * order this leaves out. Where the next order could count, the true currents at both ends are looked up: what they differ
 * from the expansion's corrects the step and is the measure of its error. Cell and driver meet at the terminals, behind
 * the capacitor's series resistance; leakage, balancing, limiter and standby draw from the inner voltage.
 *
 * Set the mode and step_s, then `tryStep`, then `accept`.
 * source: HochbruckOstermann2010 (exponential integrators), ZubietaBonert2000 (capacitor)
 */
export class LampStepper {
  readonly lamp: LampParams;
  readonly curve: ChargingCurve;
  readonly load: LitLoad;
  readonly drains: ParasiticLoads;
  readonly delayed: DelayedBranches;
  readonly path = new VoltagePath();

  // State.
  main_V = 0;

  // Mode, set by the caller.
  /** Share of the time the LED is on, and of its full light that it shows while on; see `setDuty`. */
  duty = 0;
  glow = 0;
  /** Of the driver's current, what is drawn on average; 0 with the LED off. */
  share = 0;
  /** The driver has stopped at its cut-off and waits. */
  stopped = false;
  /** Error of the capacitor's voltage allowed in a step of an hour. */
  tolerance_V = 1e-4;
  /** Length of the step to try. */
  step_s = 0;

  // Result of the last step tried.
  end_V = 0;
  terminal_V = 0;
  rise_V = 0;
  deviation_V = 0;
  error_V = 0;
  /** Error allowed in the step. */
  allowed_V = 0;
  lit = false;
  /** The LED is on, or would be if motion came. */
  ready = false;
  /** The cell gave current in the step. */
  charging = false;
  /** Driver's current at the start, in the middle and at the end; cell's current at the end; terminals at the start. */
  startLoad_A = 0;
  middleLoad_A = 0;
  endLoad_A = 0;
  endIn_A = 0;
  startTerminal_V = 0;
  /** Light of the LED while on, unless dimmed, in the middle and at the end, lumens. */
  middleLight_lm = 0;
  endLight_lm = 0;
  /** The middle in time: inner voltage. */
  middle_V = 0;
  /** Rate at the end, V/s, and at the end of the step before. */
  endRate = 0;
  lastRate = 0;
  /** Mean of the inner voltage over the step, and mean square about it; after `averageStep`. */
  mean_V = 0;
  spread_V2 = 0;

  // The expansion: inner voltage, derivatives of cell and driver current against it.
  at_V = 0;
  in_A = 0;
  inSlope = 0;
  inSecond = 0;
  /** A sixth of the third derivative. */
  inThird = 0;
  private load_A = 0;
  private loadSlope = 0;
  private loadSecond = 0;
  private perC = 1;
  /** 1 for a slow step, more for one that settles. */
  stiff = 1;
  /** Rise before what delayed branches do to it by drawing unevenly. */
  evenRise_V = 0;
  /** The step was taken by the expansion of the whole circuit. */
  expanded = false;
  private aim_V = 0;

  private probe_V = 0;
  private probeRate = 0;
  private probeSlope = 0;
  private probeIn_A = 0;
  private probeLoad_A = 0;
  private probeInSlope = 0;
  private probeLoadSlope = 0;

  /** Capacitance at 0 V and its rise per volt; series resistance. */
  readonly c0: number;
  readonly c1: number;
  ohm: number;

  constructor(lamp: LampParams) {
    const { capacitor } = lamp;
    this.lamp = lamp;
    this.curve = new ChargingCurve(lamp);
    this.load = new LitLoad(lamp.load);
    this.drains = new ParasiticLoads(lamp);
    this.delayed = new DelayedBranches(capacitor.delayed);
    this.c0 = capacitor.capacitance_F;
    this.c1 = capacitor.rise_F_V;
    this.ohm = capacitor.series_ohm;
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
    this.ohm = this.lamp.capacitor.series_ohm * curve.seriesGrowth;
  }

  /** Takes the last tried step over as the present state. */
  accept(): void {
    this.main_V = this.end_V;
    this.startLoad_A = this.endLoad_A;
    this.startTerminal_V = this.terminal_V;
    this.lastRate = this.endRate;
    this.curve.in_A = this.endIn_A;
    if (this.delayed.exist) this.delayed.accept();
  }

  /** Terminal voltage, driver's current and light at the present state, after a change of mode; out: the rate, V/s. */
  settle(): number {
    this.step_s = HOUR_S;
    this.begin();
    this.probe_V = this.main_V;
    this.probe();
    // Far from the current before, the first look is good to some nanoamperes only.
    if (this.lit) this.probe();
    this.lastRate = this.probeRate;
    this.startLoad_A = this.probeLoad_A;
    this.endLoad_A = this.probeLoad_A;
    this.terminal_V = this.main_V + this.ohm * (this.probeIn_A - this.probeLoad_A);
    this.startTerminal_V = this.terminal_V;
    this.endLight_lm = this.ready ? this.load.light_lm(this.terminal_V) : 0;
    return this.probeRate;
  }

  /**
   * Tries a step of step_s from the present state.
   * out: true where it holds the tolerance; then the result fields are those of the step. Else error_V says by how much
   *   it misses (Infinity: not at all), and the step must be shorter
   */
  tryStep(): boolean {
    this.begin();
    // By day an error is soon forgotten, in the dark it stays; what a limiter takes goes by the voltage within the step.
    const share = Math.max(this.step_s, SHORT_STEP_S) / HOUR_S;
    const part = this.charging ? Math.sqrt(share) : share;
    this.allowed_V = this.tolerance_V * part * (this.drains.limiting ? 0.1 : 1);
    const plain = !this.charging && !this.drains.limiting;
    this.expanded = !(plain && (this.lit ? litStep(this) : restStep(this)));
    if (this.expanded && !this.circuitStep()) {
      this.error_V = Number.POSITIVE_INFINITY;
      this.curve.recover();
      return false;
    }
    const { delayed } = this;
    this.end_V = this.main_V + this.rise_V;
    this.middle_V = this.main_V + 0.5 * this.rise_V + this.deviation_V;
    this.terminal_V = this.end_V + this.ohm * (this.endIn_A - this.endLoad_A);
    if (delayed.exist) {
      delayed.rise_V = this.rise_V;
      delayed.deviation_V = this.deviation_V;
      delayed.take();
    }
    if (this.ready) {
      this.endLight_lm = this.load.light_lm(this.terminal_V);
      this.middleLight_lm = this.load.light_lm(
        this.middle_V + this.ohm * (this.expandedIn_A(this.middle_V - this.at_V) - this.middleLoad_A),
      );
    }
    if (this.error_V <= this.allowed_V) return true;
    if (this.step_s <= LEAST_STEP_S && this.error_V <= SHORT_STEP_ERROR_V) return true;
    return this.step_s <= SHORTEST_STEP_S && this.error_V < Number.POSITIVE_INFINITY;
  }

  /** The step of the whole circuit; false where none of this length is found. */
  private circuitStep(): boolean {
    if (!this.centre()) return false;
    const { path, delayed } = this;
    this.rise_V = path.rise_V;
    this.deviation_V = path.deviation_V;
    this.endRate = path.endRate;
    const last_x = path.from_V + path.rise_V;
    this.endIn_A = this.expandedIn_A(last_x);
    this.endLoad_A = this.load_A + last_x * (this.loadSlope + 0.5 * last_x * this.loadSecond);
    if (this.lit || (this.error_V > UNCORRECTED * this.allowed_V && !this.correctByThird()))
      this.correctByLook();
    this.evenRise_V = this.rise_V;
    if (delayed.exist) this.spreadDelayed();
    if (!(this.main_V + this.rise_V >= 0 && this.rise_V < FARTHEST_V)) return false;
    if (this.lit) {
      const middle_x = this.main_V - this.at_V + 0.5 * this.rise_V + this.deviation_V;
      const middle_A = this.load_A + middle_x * (this.loadSlope + 0.5 * middle_x * this.loadSecond);
      this.load.at(this.at_V + middle_x + this.ohm * (this.expandedIn_A(middle_x) - middle_A));
      this.middleLoad_A = this.load.current_A;
    } else this.middleLoad_A = 0;
    return true;
  }

  /** What holds for the whole step. */
  private begin(): void {
    const { drains, delayed, main_V, lamp } = this;
    const { driver } = lamp;
    this.ready = this.glow > 0 && !this.stopped;
    this.lit = this.ready && this.duty > 0;
    this.load.share = this.share;
    drains.standby_A = this.stopped
      ? driver.belowCutoff_A
      : this.lit
        ? (1 - this.duty) * driver.standby_A
        : driver.standby_A;
    this.charging = this.curve.reaches(this.lit ? main_V - this.ohm * this.startLoad_A : main_V);
    if (delayed.exist) {
      delayed.main_V = main_V;
      delayed.step_s = this.step_s;
      delayed.begin();
    }
    const over_V = main_V - drains.limiter_V;
    drains.limiting = over_V > 0;
    if (over_V < KINK_V && over_V > -KINK_V) {
      // On the kink itself the side is the one the voltage goes to.
      drains.limiting = false;
      this.probe_V = main_V;
      this.probe();
      drains.limiting = this.probeRate > 0;
    }
  }

  /** Expands about a point near the middle of the path; false where no path of the step's length is found. */
  private centre(): boolean {
    const { path, main_V, step_s: h } = this;
    let ahead_V = 0.5 * h * this.lastRate;
    if (this.charging) {
      ahead_V = (0.5 * h * this.curve.in_A) / (this.c0 + this.c1 * main_V + this.delayed.follow_F);
      if (ahead_V < 4e-3 || this.lit) ahead_V = 0;
    }
    this.aim_V = main_V + (ahead_V > AHEAD_V ? AHEAD_V : Math.max(ahead_V, -AHEAD_V));
    path.duration_s = h;
    for (let round = 1; ; round++) {
      this.expand();
      const from_x = main_V - this.at_V;
      path.from_V = from_x;
      if (!path.follow()) return false;
      const rise_V = path.rise_V;
      const far = rise_V < 0 ? -rise_V : rise_V;
      if (!(far < 1e3)) return false;
      const to_x = from_x + rise_V;
      const start = from_x < 0 ? -from_x : from_x;
      const end = to_x < 0 ? -to_x : to_x;
      const reach = Math.max(start, end);
      this.stiff = path.slope < 0 ? 1 - path.slope * h : 1;
      const third = Math.abs(path.third);
      // What the fourth order adds, if orders go on as they grew.
      const next = third === 0 ? 0 : third * Math.min((0.25 * reach * third) / Math.abs(path.second), 1);
      const left = Math.abs(path.missed) + next;
      this.error_V = (left * reach * reach * reach * h * (1 / 24)) / this.stiff;
      const middle_x = from_x + 0.5 * rise_V;
      const most = CENTRED_V + CENTRED_SHARE * far;
      const centred = middle_x < most && middle_x > -most;
      // A slow step only has to hold its error; the mean of one that settles is read off the expansion.
      const slow = this.stiff < SETTLES && this.error_V < this.allowed_V;
      if (centred || slow || round > MOST_CENTRINGS) return far < FARTHEST_V;
      const half_V = 0.5 * (far < FARTHEST_V ? rise_V : rise_V < 0 ? -FARTHEST_V : FARTHEST_V);
      this.aim_V = main_V + half_V < 0 ? 0.5 * main_V : main_V + half_V;
    }
  }

  /** Expands all currents about an inner voltage near the one asked for. */
  private expand(): void {
    const { curve, load, drains, ohm, path, aim_V, c1 } = this;
    // Known before the curve is: the processor works on both at once.
    drains.at(aim_V);
    const perC0 = 1 / (this.c0 + c1 * aim_V + this.delayed.follow_F);
    let at_V = aim_V;
    let in_A = 0;
    let slope = 0;
    let second = 0;
    let third = 0;
    let load_A = 0;
    let loadSlope = 0;
    let loadSecond = 0;
    if (this.charging) {
      curve.near_V = CENTRE_NEAR_V;
      curve.target_V = aim_V + ohm * (curve.in_A - this.load_A);
      curve.look();
      at_V = curve.at_V;
      in_A = curve.in_A;
      slope = curve.slope;
      second = curve.second;
      third = curve.third;
    } else {
      if (this.lit) at_V -= ohm * this.startLoad_A;
      curve.block(at_V);
      in_A = curve.blocked_A;
      slope = curve.blockedSlope;
    }
    if (this.lit) {
      load.at(at_V);
      load_A = load.current_A;
      loadSlope = load.slope_S;
      loadSecond = load.secondDerivative_A_V2;
    }
    // From the terminals to the inner voltage, behind the series resistance.
    const turn = 1 / (1 - ohm * (slope - loadSlope));
    const turn2 = turn * turn;
    const turned = second - loadSecond;
    const bend = ohm * turned * turn2 * turn;
    const main_V = at_V - ohm * (in_A - load_A);
    this.at_V = main_V;
    this.in_A = in_A;
    this.inSlope = slope * turn;
    this.inSecond = second * turn2 + slope * bend;
    this.load_A = load_A;
    this.loadSlope = loadSlope * turn;
    this.loadSecond = loadSecond * turn2 + loadSlope * bend;
    const off_V = main_V - aim_V;
    const drawnSlope = drains.drawnSlope + off_V * drains.leakSecond;
    const drawn_A = drains.drawn_A + off_V * (drains.drawnSlope + 0.5 * off_V * drains.leakSecond);
    const more = c1 * off_V * perC0;
    const perC = perC0 * (1 - more * (1 - more * (1 - more)));
    const netThird = third * turn2 * turn2 + 3 * turned * turn2 * bend;
    this.perC = perC;
    this.inThird = netThird * (1 / 6);
    path.rate = (in_A - load_A - drawn_A - this.delayed.base_A) * perC;
    path.slope = (this.inSlope - this.loadSlope - drawnSlope - path.rate * c1) * perC;
    path.second = (turned * turn2 * turn - drains.leakSecond - 2 * c1 * path.slope) * perC;
    path.third = (netThird - drains.leakThird - 3 * c1 * path.second) * perC;
  }

  /**
   * Corrects a step by the third order that its path leaves out; what the fourth would add, if orders go on as they
   * grew, is its error. out: false where that is not little enough
   */
  private correctByThird(): boolean {
    const { path } = this;
    if (path.missed === 0) return this.error_V <= UNLOOKED * this.allowed_V;
    const from_x = path.from_V;
    const to_x = from_x + path.rise_V;
    const middle_x = from_x + 0.5 * path.rise_V + path.deviation_V;
    const z = this.stiff - 1;
    const start = (from_x * from_x * from_x) / (1 + z + 0.5 * z * z);
    const middle = (4 * middle_x * middle_x * middle_x) / (1 + 0.5 * z + 0.125 * z * z);
    const end = (to_x * to_x * to_x) / (1 + z * (1 / 6));
    const per36_s = this.step_s * (1 / 36);
    const by_V = path.missed * per36_s * (start + middle + end);
    // The third order cancels itself about the middle, the fourth does not.
    const ways = per36_s * (Math.abs(start) + Math.abs(middle) + Math.abs(end));
    const third = Math.abs(path.third);
    const missed = Math.abs(path.missed);
    const reach = Math.max(Math.abs(from_x), Math.abs(to_x));
    const orders = missed + third;
    const grows = orders === 0 ? 0 : Math.min((0.25 * reach * orders) / Math.abs(path.second), 1);
    this.error_V = ways * (missed + ALIKE * third) * grows;
    if (this.error_V > UNLOOKED * this.allowed_V) return false;
    this.rise_V += by_V;
    this.endIn_A += this.inSlope * by_V;
    return true;
  }

  /** Corrects a step by the true currents at its ends, and takes what is left as its error. */
  private correctByLook(): void {
    const { path } = this;
    this.probe_V = this.main_V;
    this.curve.in_A = this.expandedIn_A(path.from_V);
    this.probeLoad_A = this.startLoad_A;
    this.probe();
    const startOff = this.probeRate - path.startRate;
    this.startLoad_A = this.probeLoad_A;
    this.startTerminal_V = this.main_V + this.ohm * (this.probeIn_A - this.probeLoad_A);
    this.probe_V = this.main_V + path.rise_V;
    this.curve.in_A = this.endIn_A;
    this.probeLoad_A = this.endLoad_A;
    this.probe();
    const settles = this.probeSlope < 0 ? -this.probeSlope * this.step_s : 0;
    this.correctBy(startOff, this.probeRate - path.endRate, settles);
    const by_V = this.rise_V - path.rise_V;
    this.endIn_A = this.probeIn_A + this.probeInSlope * by_V;
    this.endLoad_A = this.probeLoad_A + this.probeLoadSlope * by_V;
  }

  /**
   * Corrects rise_V by what the rate at both ends differs from the path's, V/s, and sets error_V. Simpson's weights; a
   * stiff step forgets its start and rests on its end, by the slope there. The defect grows with the cube of the way from
   * the point of expansion, which tells what it is at half time.
   */
  private correctBy(startOff: number, endOff: number, settles: number): void {
    const { path, step_s: h } = this;
    const z = this.stiff - 1;
    const from_x = path.from_V;
    const to_x = from_x + path.rise_V;
    // Of the third and fourth power of the way; where one end lies at the point itself, of the third alone.
    const from3 = from_x * from_x * from_x;
    const to3 = to_x * to_x * to_x;
    const both = from_x * to_x < -0.04 * (to_x - from_x) * (to_x - from_x);
    const fourth = both ? (endOff / to3 - startOff / from3) / (to_x - from_x) : 0;
    const third = both
      ? endOff / to3 - fourth * to_x
      : to3 === from3
        ? 0
        : (endOff - startOff) / (to3 - from3);
    const bulge_V = 3 * path.deviation_V;
    const defect = (x: number) => x * x * x * (third + fourth * x);
    const early = defect(from_x + 0.25 * path.rise_V + bulge_V * 0.25) / (1 + z * (0.75 + 0.28 * z));
    const middle = defect(from_x + 0.5 * path.rise_V + path.deviation_V) / (1 + z * (0.5 + 0.125 * z));
    const late = defect(from_x + 0.75 * path.rise_V + bulge_V * 0.25) / (1 + z * (0.25 + 0.031 * z));
    const byStart_V = (7 / 90) * h * (startOff / (1 + z + 0.5 * z * z));
    const byMiddle_V = h * ((32 / 90) * (early + late) + (12 / 90) * middle);
    const byEnd_V = (h * endOff) / (90 / 7 + settles);
    this.rise_V += byStart_V + byMiddle_V + byEnd_V;
    // Simpson's weights are exact for slow changes, those of a stiff step a guess between their limits.
    const left = this.lit ? LEFT_WHEN_LIT : LEFT_OF_CORRECTION + (LEFT_WHEN_STIFF * z) / (2 + z);
    this.error_V = left * ((byStart_V < 0 ? -byStart_V : byStart_V) + (byEnd_V < 0 ? -byEnd_V : byEnd_V));
  }

  /** Cell's current by the expansion, amperes. in: volts from its point */
  private expandedIn_A(x: number): number {
    return this.in_A + x * (this.inSlope + x * (0.5 * this.inSecond + x * this.inThird));
  }

  /** The true rate at probe_V, into probeRate, with the currents of cell and driver and all slopes there. */
  private probe(): void {
    const { curve, load, drains, delayed, ohm, probe_V, lit } = this;
    let load_A = lit ? this.probeLoad_A : 0;
    let in_A = 0;
    let slope = 0;
    let terminal_V = probe_V - ohm * load_A;
    if (this.charging) {
      curve.near_V = PROBE_NEAR_V;
      curve.target_V = terminal_V + ohm * curve.in_A;
      curve.look();
      in_A = curve.in_A;
      slope = curve.slope;
      terminal_V = curve.at_V;
    } else {
      curve.block(terminal_V);
      in_A = curve.blocked_A;
      slope = curve.blockedSlope;
    }
    let loadSlope = 0;
    if (lit) {
      load.at(terminal_V);
      load_A = load.current_A;
      loadSlope = load.slope_S;
    }
    // From the point looked up to the one asked for, along both curves.
    const turn = 1 / (1 - ohm * (slope - loadSlope));
    const off_V = (probe_V - terminal_V + ohm * (in_A - load_A)) * turn;
    if (this.charging) {
      in_A += off_V * (slope + off_V * (0.5 * curve.second + off_V * curve.third * (1 / 6)));
      slope += off_V * curve.second;
    }
    if (lit) load_A += off_V * (loadSlope + 0.5 * off_V * load.secondDerivative_A_V2);
    drains.at(probe_V);
    const perC = 1 / (this.c0 + this.c1 * probe_V + delayed.follow_F);
    this.probeIn_A = in_A;
    this.probeLoad_A = load_A;
    this.probeInSlope = slope * turn;
    this.probeLoadSlope = loadSlope * turn;
    this.probeRate = (in_A - load_A - drains.drawn_A - delayed.base_A) * perC;
    this.probeSlope = (this.probeInSlope - this.probeLoadSlope - drains.drawnSlope) * perC;
  }

  /** What delayed branches do to the path by drawing unevenly: a bent path's share, and what their early draw leaves. */
  private spreadDelayed(): void {
    const { delayed, path, perC } = this;
    const z = this.stiff - 1;
    const perHalfSettled = perC / (1 + 0.5 * z);
    delayed.spread(this.rise_V);
    const bent_V = (delayed.reaction_FC * perC - delayed.kappa_F * this.deviation_V) * perHalfSettled;
    this.deviation_V -= delayed.half_C * perHalfSettled + 0.5 * bent_V;
    const early_V = (-path.slope * delayed.ahead_Cs * perC) / (1 + z * (0.5 + z / 6));
    this.rise_V += bent_V + early_V;
    const both_V = (bent_V < 0 ? -bent_V : bent_V) + (early_V < 0 ? -early_V : early_V);
    this.error_V += (this.lit ? LEFT_OF_DELAYED_LIT : LEFT_OF_DELAYED) * both_V;
  }

  /** Driver's current at an inner voltage of the tried step, by its expansion, amperes. */
  loadAt_A(main_V: number): number {
    const x = main_V - this.at_V;
    return this.load_A + x * (this.loadSlope + 0.5 * x * this.loadSecond);
  }

  /**
   * Current from the cell at an inner voltage of the tried step, amperes: by the expansion while its last order counts
   * for little, else looked up.
   */
  currentAt_A(main_V: number): number {
    const { curve, ohm } = this;
    const x = main_V - this.at_V;
    const last_A = x * x * x * this.inThird;
    const near_A = this.expandedIn_A(x);
    const most_A = EXPANDED_SHARE * near_A;
    if (!this.charging || (last_A < most_A && last_A > -most_A)) return near_A;
    const others_V = main_V - ohm * this.middleLoad_A;
    curve.in_A = Math.max(near_A, 0);
    curve.near_V = PROBE_NEAR_V;
    curve.target_V = others_V + ohm * curve.in_A;
    curve.look();
    const off_V = others_V + ohm * curve.in_A - curve.at_V;
    return curve.in_A + (off_V * (curve.slope + 0.5 * off_V * curve.second)) / (1 - ohm * curve.slope);
  }
}
