import { LampCircuit } from './LampCircuit.ts';
import { VoltagePath } from './VoltagePath.ts';

/** How near looks come to the voltage asked for: an expansion only has to lie by the path, ends are reached by a series. */
const CENTRE_NEAR_V = 0.03;
const PROBE_NEAR_V = 2e-3;
/** Where the last order of an expansion counts for more than this, a current is looked up. */
const EXPANDED_SHARE = 1e-4;

/**
 * The currents of a lamp's circuit against the capacitor's inner voltage: expanded to third order about a point, which
 * lies exactly on the circuit's curve (`ChargingCurve`), or the true ones at a voltage.
 */
export class CircuitCurrents extends LampCircuit {
  /** Its rates are those of the expansion. */
  readonly path = new VoltagePath();

  /** Inner voltage that an expansion is asked for at. */
  aim_V = 0;
  // The expansion: inner voltage, derivatives of cell and driver current against it.
  at_V = 0;
  in_A = 0;
  inSlope = 0;
  inSecond = 0;
  /** A sixth of the third derivative. */
  inThird = 0;
  load_A = 0;
  loadSlope = 0;
  loadSecond = 0;
  /** Volts a coulomb there. */
  perC = 1;

  // What was looked up: the voltage asked for, rate and currents there with their slopes; driver's current is a guess first.
  probe_V = 0;
  probeRate = 0;
  probeSlope = 0;
  probeIn_A = 0;
  probeLoad_A = 0;
  probeInSlope = 0;
  probeLoadSlope = 0;

  /** Driver's current in the middle of the tried step. */
  middleLoad_A = 0;

  /** Expands all currents about an inner voltage near aim_V. */
  protected expand(): void {
    const { curve, load, drains, ohm, path, c1, aim_V } = this;
    // Known before the curve is: the processor works on both at once.
    drains.main_V = aim_V;
    drains.read();
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
      curve.target_V = at_V;
      curve.block();
      in_A = curve.blocked_A;
      slope = curve.blockedSlope;
    }
    if (this.lit) {
      load.terminal_V = at_V;
      load.read();
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

  /** Cell's current by the expansion, amperes. in: volts from its point */
  expandedIn_A(x: number): number {
    return this.in_A + x * (this.inSlope + x * (0.5 * this.inSecond + x * this.inThird));
  }

  /** Driver's current at an inner voltage of the tried step, by its expansion, amperes. */
  loadAt_A(main_V: number): number {
    const x = main_V - this.at_V;
    return this.load_A + x * (this.loadSlope + 0.5 * x * this.loadSecond);
  }

  /** The true rate at probe_V, into probeRate, with the currents of cell and driver and all slopes there. */
  probe(): void {
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
      curve.target_V = terminal_V;
      curve.block();
      in_A = curve.blocked_A;
      slope = curve.blockedSlope;
    }
    let loadSlope = 0;
    if (lit) {
      load.terminal_V = terminal_V;
      load.read();
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
    drains.main_V = probe_V;
    drains.read();
    const perC = 1 / (this.c0 + this.c1 * probe_V + delayed.follow_F);
    this.probeIn_A = in_A;
    this.probeLoad_A = load_A;
    this.probeInSlope = slope * turn;
    this.probeLoadSlope = loadSlope * turn;
    this.probeRate = (in_A - load_A - drains.drawn_A - delayed.base_A) * perC;
    this.probeSlope = (this.probeInSlope - this.probeLoadSlope - drains.drawnSlope) * perC;
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
