import { quickExp } from '../common/quickExp.ts';
import { CellDiodeCircuit } from '../lamp/CellDiodeCircuit.ts';
import { capacitorCharge_C, capacitorVoltage_V } from '../lamp/capacitor/step.ts';
import { LoadDraw } from '../lamp/loadTable.ts';
import type { LampParams } from '../lamp/params.ts';
import { DelayedCurrent } from './DelayedCurrent.ts';
import { Expansion } from './Expansion.ts';
import { ParasiticLoads } from './ParasiticLoads.ts';
import { StepSums } from './StepSums.ts';

const MOST_ROUNDS = 40;
/** Error of the end, as a share of how far a settling delayed branch bends the voltage's path: measured, see the tests. */
const SLOW_ERROR = 0.001;
/**
 * The lamp's circuit and its state, moved on by one step at a time under constant light and temperature.
 *
 * The exponential midpoint rule: the circuit is solved at the middle of the step, where all currents are expanded to
 * second order in the capacitor's voltage; the voltage's path is the exact solution of the straight-line part, so that a
 * capacitor that settles at its reachable voltage within seconds and one that sinks over days both take steps of an hour. The middle
 * is the point that the path itself passes at half time. Each current and each loss is the integral of its own
 * expansion along that path; the state is charge, moved by the same integrals that the ledger sums, so that charge
 * closes to rounding, while energy closes only as well as the expansion holds. The delayed branches see the voltage as a
 * parabola over the step and follow it exactly.
 *
 * Leakage, balancing, limiter and standby draw from the inner voltage; cell and driver meet at the terminals, behind
 * the series resistance.
 *
 * source: HochbruckOstermann2010 (exponential integrators), ZubietaBonert2000 (capacitor)
 */
export class LampStepper {
  readonly lamp: LampParams;
  readonly path: CellDiodeCircuit;
  readonly draw: LoadDraw;
  readonly drains: ParasiticLoads;

  // State.
  charge_C = 0;
  main_V = 0;
  delayed1_V = 0;
  delayed2_V = 0;

  // Mode, set by the caller.
  /** Share of the time the LED is on; 0 is off. */
  share = 0;
  /** The driver has stopped at its cut-off and waits. */
  stopped = false;

  // Result of the last step tried.
  readonly sums = new StepSums();
  terminal_V = 0;
  /** Rates of the inner voltage at the start and the end of the step, V/s. */
  startRate = 0;
  endRate = 0;
  /** Estimate of what the step leaves out of the capacitor's voltage. */
  error_V = 0;
  endMain_V = 0;
  endSlow1_V = 0;
  endSlow2_V = 0;
  private end_C = 0;

  private readonly at = new Expansion();
  private readonly delayed1: DelayedCurrent;
  private readonly delayed2: DelayedCurrent;
  private readonly c0: number;
  private readonly c1: number;
  private readonly capacitor_ohm: number;
  private readonly path_ohm: number;
  /** Rate at the end of the last step in the dark, and its pull: the next one's first guess. */
  private lastDarkRate = 0;
  private lastDarkPull = 0;

  /** The point of expansion may miss the middle of the path by this, and by a share of the path. */
  private middleSettled_V = 2e-4;
  private middleShare = 0.1;
  /**
   * A correction of the diode's junction below this is the last: the currents follow it to second order, so that its
   * cube is left, some 1e-5 of the current.
   */
  private junctionSettled_V = 1e-3;

  constructor(lamp: LampParams) {
    const { capacitor } = lamp;
    this.lamp = lamp;
    this.path = new CellDiodeCircuit(lamp.cell, lamp.diode);
    this.draw = new LoadDraw(lamp.load);
    this.drains = new ParasiticLoads(lamp);
    this.delayed1 = new DelayedCurrent(capacitor.delayed[0]);
    this.delayed2 = new DelayedCurrent(capacitor.delayed[1]);
    this.c0 = capacitor.capacitance_F;
    this.c1 = capacitor.rise_F_V;
    this.capacitor_ohm = capacitor.series_ohm;
    this.path_ohm = lamp.cell.series_ohm + lamp.diode.series_ohm;
  }

  /** How closely the middle of a step is found, for the error of the capacitor's voltage allowed in one step. */
  setTolerance(tolerance_V: number): void {
    const finer = Math.min(1, tolerance_V / 1e-4);
    this.middleSettled_V = 2e-4 * finer;
    this.middleShare = 0.1 * finer;
    this.junctionSettled_V = 1e-3 * Math.cbrt(finer);
  }

  /** Puts the whole capacitor, delayed branches too, at one voltage. */
  restAt(capacitor_V: number): void {
    this.main_V = capacitor_V;
    this.charge_C = capacitorCharge_C(this.lamp.capacitor, capacitor_V);
    this.delayed1_V = capacitor_V;
    this.delayed2_V = capacitor_V;
    this.terminal_V = capacitor_V;
  }

  /** Charge of all branches, coulombs. */
  wholeCharge_C(): number {
    const [delayed1, delayed2] = this.lamp.capacitor.delayed;
    return (
      this.charge_C + delayed1.capacitance_F * this.delayed1_V + delayed2.capacitance_F * this.delayed2_V
    );
  }

  /** Sets light on the cell and the temperature of everything. */
  setConditions(light_W_m2: number, temperature_degC: number): void {
    this.path.setConditions(light_W_m2, temperature_degC);
    this.drains.setTemperature(temperature_degC);
  }

  /** Rate of the inner voltage at the present state, volts per second; sets terminal_V too. */
  settle(): number {
    this.tryStep(0);
    return this.endRate;
  }

  /** Takes the last tried step over as the present state. */
  accept(): void {
    this.charge_C = this.end_C;
    this.main_V = this.endMain_V;
    this.delayed1_V = this.endSlow1_V;
    this.delayed2_V = this.endSlow2_V;
  }

  /** Lumens of the lit LED at a terminal voltage, averaged over its share of the time. */
  light_lm(terminal_V: number): number {
    return this.share * this.draw.at(this.draw.columns.light_lm, terminal_V);
  }

  /**
   * Tries a step from the present state; `accept` takes it over.
   *
   * in: duration_s, 0 or more
   * out: true where the middle was found; then error_V, terminal_V, the rates, the end state and the sums are those of
   *   the step
   */
  tryStep(duration_s: number): boolean {
    const h = duration_s;
    const { path, at, draw, drains, delayed1, delayed2, c0, c1, capacitor_ohm: ohm, path_ohm } = this;
    const { photocurrent_A, saturation_A, thermal_V, shunt_S, isSwitch } = path;
    const { diodeSaturation_A, diodeThermal_V, diodeLeak_S } = path;
    const { middleSettled_V, middleShare, junctionSettled_V } = this;
    const { driver } = this.lamp;
    const from_V = this.main_V;
    const dark = photocurrent_A === 0;
    const on = this.share > 0 && !this.stopped;
    drains.setStandby(on ? 0 : this.stopped ? driver.belowCutoff_A : driver.standby_A);
    const highest_V = Math.max(from_V, path.openCircuit_V);
    const perDiode = 1 / diodeThermal_V;
    const perCell = 1 / thermal_V;
    if (delayed1.exists) delayed1.begin(from_V, this.delayed1_V, h);
    if (delayed2.exists) delayed2.begin(from_V, this.delayed2_V, h);

    // In the dark the last step goes on: its end rate, its pull.
    const carry = dark ? h * this.lastDarkPull : 0;
    let V = dark ? from_V + 0.5 * h * this.lastDarkRate * (1 + 0.25 * carry) : from_V;
    let terminal = V;
    let v = path.startingJunction_V(V);
    let rise_V = dark ? h * this.lastDarkRate * (1 + carry * (0.5 + carry / 6)) : 0;
    let midpointDeviation_V = V - from_V - 0.5 * rise_V;
    for (let round = 0; round < MOST_ROUNDS; round++) {
      // Diode: current, slope, bend.
      let i: number;
      let g: number;
      let bend = 0;
      if (isSwitch) {
        g = v > 0 ? path.diodeOn_S : diodeLeak_S;
        i = g * v;
        g += 1e-18;
      } else {
        const x = v * perDiode;
        const e = x < -40 ? 0 : diodeSaturation_A * quickExp(x);
        const slope = e * perDiode;
        bend = slope * perDiode;
        i = e - diodeSaturation_A + diodeLeak_S * v;
        g = slope + diodeLeak_S + 1e-18;
      }
      // Driver.
      let load = 0;
      let loadSlope = 0;
      let damp = 1;
      if (on) {
        draw.at_V(terminal, this.share);
        load = draw.current_A;
        loadSlope = draw.slope_S;
        damp = 1 / (1 + ohm * loadSlope);
      }
      const endChange = (V + ohm * (i - load) - terminal) * damp;
      // Cell. In the dark its junction carries microvolts, where the exponential is a straight line.
      const u = terminal + v + path_ohm * i;
      const relative = u * perCell;
      const e = dark && relative < 1e-3 ? saturation_A * (1 + relative) : saturation_A * quickExp(relative);
      const cellSlope = e * perCell;
      const fall = cellSlope + shunt_S;
      const offCell = photocurrent_A - (e - saturation_A) - u * shunt_S - i;
      // The junction at this capacitor voltage, corrected; currents there to second order.
      const perLean = 1 / (fall * (damp * ohm * g + 1 + path_ohm * g) + g);
      const dv = Math.min((offCell - fall * endChange) * perLean, 0.3);
      const terminalChange = endChange + damp * ohm * g * dv;
      const conductance = g + bend * dv;
      v += dv;
      terminal += terminalChange;
      const follows = -fall * damp * perLean;
      at.in_A = i + dv * (g + 0.5 * bend * dv);
      at.inSlope = conductance * follows;
      at.terminalSlope = damp * (1 + ohm * at.inSlope);
      at.load_A = on ? load + loadSlope * terminalChange : 0;
      at.loadSlope = loadSlope * at.terminalSlope;
      drains.expand(at, V);
      const delayed_A =
        (delayed1.exists ? delayed1.follow(rise_V, midpointDeviation_V) : 0) +
        (delayed2.exists ? delayed2.follow(rise_V, midpointDeviation_V) : 0);

      const net = at.in_A - at.load_A - at.leak_A - at.bleed_A - at.standby_A - delayed_A;
      const netSlope = at.inSlope - at.loadSlope - at.leakSlope - at.bleedSlope - at.standbySlope;
      const farad = c0 + c1 * V;
      const perFarad = 1 / farad;
      const rate = net * perFarad;
      const pull = (netSlope - rate * c1) * perFarad;
      // The path x(t) about V solves x' = rate + pull x; where it is at half time is where the circuit must be solved.
      const z = -0.5 * pull * h;
      const small = z < 0.02 && z > -0.02;
      const half = small ? 1 - z * (1 - z * (0.5 - z * (1 / 6 - z / 24))) : quickExp(-z);
      const phi = small ? 1 - z * (0.5 - z * (1 / 6 - z / 24)) : (1 - half) / z;
      const from_x = from_V - V;
      let shift = from_x * half + 0.5 * h * rate * phi;
      if (!(shift < 1e6 && shift > -1e6)) return false;
      if (V + shift > highest_V) shift = highest_V - V;
      else if (V + shift < 0) shift = -0.5 * V;
      const newRise_V = from_x * half * half + 0.5 * h * rate * phi * (1 + half) - from_x;
      const riseChange = newRise_V - rise_V;
      const miss = middleSettled_V + middleShare * (newRise_V < 0 ? -newRise_V : newRise_V);
      const settled =
        dv < junctionSettled_V &&
        dv > -junctionSettled_V &&
        shift < miss &&
        shift > -miss &&
        endChange < middleSettled_V &&
        endChange > -middleSettled_V &&
        riseChange < 2 * middleSettled_V &&
        riseChange > -2 * middleSettled_V;
      rise_V = newRise_V;
      midpointDeviation_V = shift - from_x - 0.5 * newRise_V;
      if (!settled) {
        V += shift;
        v += follows * shift;
        terminal += at.terminalSlope * shift;
        if (v > diodeThermal_V * 60 + 1) return false;
        continue;
      }

      // The rest of the expansion: half bends.
      const uSlope = at.terminalSlope + follows * (1 + path_ohm * conductance);
      at.main_V = V;
      at.terminal_V = terminal;
      at.junction_V = v;
      at.junctionSlope = follows;
      at.junctionHalf =
        (0.5 *
          (bend * follows * follows * (1 + fall * path_ohm) + (cellSlope / thermal_V) * uSlope * uSlope)) /
        -(fall * (1 + path_ohm * conductance) + conductance);
      at.inHalf = conductance * at.junctionHalf + 0.5 * bend * follows * follows;
      at.loadHalf = on ? 0.5 * draw.secondDerivative_A_V2 * at.terminalSlope * at.terminalSlope : 0;
      at.terminalHalf = ohm * (at.inHalf - at.loadHalf);
      at.farad = farad;
      return this.finish(h, from_x, shift, rise_V, rate, pull, half, phi, net, netSlope, delayed_A);
    }
    return false;
  }

  /**
   * Ends a step whose circuit has been expanded about its middle.
   *
   * in: h, seconds; from_x and middle_x, the path's start and middle about the expansion's voltage; rise_V over the
   *   step; rate and pull of the path; half, what is left of a deviation at half time, and phi, its mean until then;
   *   net and delayed_A, current into the main branch and into the delayed ones; netSlope
   */
  private finish(
    h: number,
    from_x: number,
    shift: number,
    rise_V: number,
    rate: number,
    pull: number,
    half: number,
    phi: number,
    net: number,
    netSlope: number,
    delayed_A: number,
  ): boolean {
    const { at, sums, delayed1, delayed2, path } = this;
    const { farad } = at;
    // Integrals of x and x squared along the path.
    const to_x = from_x + rise_V;
    const z = -0.5 * pull * h;
    let straight_x1: number;
    let x2: number;
    if (z < 0.15 && z > -0.15) {
      straight_x1 = (h / 6) * (from_x + 4 * shift + to_x);
      x2 = (h / 6) * (from_x * from_x + 4 * shift * shift + to_x * to_x);
    } else {
      const rest_x = -rate / pull;
      const gap = from_x - rest_x;
      const whole = half * half;
      const first = (1 - whole) / -pull;
      straight_x1 = rest_x * h + gap * first;
      x2 = rest_x * rest_x * h + 2 * rest_x * gap * first + (gap * gap * (1 - whole * whole)) / (-2 * pull);
    }
    // What moves the path on average besides: the bends, and delayed branches that draw more early in the step than late.
    let x1 = straight_x1 + ((at.netHalf() * x2) / farad) * 0.5 * h * phi;
    // A capacitor that is held stiffly gives way to them the less, first like 1 - z, at last like 1.5 / z^2.
    const given = 1 / (farad * (1 + z * (1 + z * (2 / 3))));
    if (delayed1.exists) x1 -= delayed1.ahead_C_s() * given;
    if (delayed2.exists) x1 -= delayed2.ahead_C_s() * given;

    sums.integrate(at, h, x1, x2, path.diodeSeries_ohm, this.capacitor_ohm);
    sums.delayed_J = (delayed1.exists ? delayed1.heat_J() : 0) + (delayed2.exists ? delayed2.heat_J() : 0);
    this.end_C = this.charge_C + (sums.in_C - sums.out_C - h * delayed_A);
    if (this.end_C < 0) return false;
    this.endMain_V = capacitorVoltage_V(this.lamp.capacitor, this.end_C);
    this.endSlow1_V = delayed1.exists && h > 0 ? this.delayed1_V + delayed1.rise_V() : this.delayed1_V;
    this.endSlow2_V = delayed2.exists && h > 0 ? this.delayed2_V + delayed2.rise_V() : this.delayed2_V;
    const delayedEnd_A = (delayed1.exists ? delayed1.end_A() : 0) + (delayed2.exists ? delayed2.end_A() : 0);
    const end_x = this.endMain_V - at.main_V;
    this.terminal_V = at.terminal_V + at.terminalSlope * end_x;
    this.startRate = rate + pull * from_x;
    this.endRate = (net + delayed_A - delayedEnd_A + netSlope * end_x) / (this.c0 + this.c1 * this.endMain_V);
    if (path.photocurrent_A === 0) {
      this.lastDarkRate = this.endRate;
      this.lastDarkPull = pull;
    }
    this.error_V = this.leftOut_V(h, from_x, end_x, x2, z);
    if (at.load_A === 0) {
      sums.led_J = 0;
      sums.led_C = 0;
      sums.light_lm_s = 0;
    } else {
      const middle_x = h > 0 ? shift + (1.5 * (x1 - straight_x1)) / h : shift;
      const { columns } = this.draw;
      sums.led_J = sums.load_J * this.draw.at(columns.efficiency, at.terminal_V);
      sums.led_C = h * this.share * this.meanAlong(columns.led_A, from_x, middle_x, end_x);
      sums.light_lm_s = h * this.share * this.meanAlong(columns.light_lm, from_x, middle_x, end_x);
    }
    return true;
  }

  /**
   * What the expansion leaves out, from what it holds: the next order is smaller by the path over the length on which
   * each curve bends. A delayed branch that settles within the step adds its part.
   */
  private leftOut_V(h: number, from_x: number, end_x: number, x2: number, z: number): number {
    const { at, delayed1, delayed2 } = this;
    const reach = Math.max(from_x < 0 ? -from_x : from_x, end_x < 0 ? -end_x : end_x);
    const inReach = 0.3 * Math.min(4, reach / (3 * this.path.diodeThermal_V)) + (z < 0 ? -z : z);
    const leftOut =
      (at.inHalf < 0 ? -at.inHalf : at.inHalf) * inReach +
      ((at.loadHalf < 0 ? -at.loadHalf : at.loadHalf) + at.leakHalf) * reach;
    const bent_C =
      h > 0 ? (delayed1.exists ? delayed1.bent_C() : 0) + (delayed2.exists ? delayed2.bent_C() : 0) : 0;
    return (leftOut * x2 + SLOW_ERROR * bent_C) / at.farad;
  }

  /** Mean of a column of the load table over the step, by Simpson's rule. */
  private meanAlong(column: Float64Array, from_x: number, middle_x: number, to_x: number): number {
    const { draw, at } = this;
    const { terminal_V, terminalSlope } = at;
    return (
      (draw.at(column, terminal_V + terminalSlope * from_x) +
        4 * draw.at(column, terminal_V + terminalSlope * middle_x) +
        draw.at(column, terminal_V + terminalSlope * to_x)) /
      6
    );
  }
}
