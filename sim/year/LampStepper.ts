import { ChargingPath } from '../lamp/ChargingPath.ts';
import type { LampParams } from '../lamp/params.ts';
import { leakageWarming, storeCharge_C, storeVoltage_V } from '../lamp/store/step.ts';
import { LoadDraw } from './LoadDraw.ts';
import { SlowCurrent } from './SlowCurrent.ts';

const MOST_ROUNDS = 40;
/** Error of the end, as a share of how far a settling slow branch bends the voltage's path: measured, see the tests. */
const SLOW_ERROR = 0.001;
/**
 * The lamp's circuit and its state, moved on by one step at a time under constant light and temperature.
 *
 * The exponential midpoint rule: the circuit is solved at the middle of the step, where all currents are expanded to
 * second order in the store's voltage; the voltage's path is the exact solution of the straight-line part, so that a
 * store that settles at its ceiling within seconds and one that sinks over days both take steps of an hour. The middle
 * is the point that the path itself passes at half time. Each current and each loss is the integral of its own
 * expansion along that path; the state is charge, moved by the same integrals that the ledger sums, so that charge
 * closes to rounding, while energy closes only as well as the expansion holds. The slow branches see the voltage as a
 * parabola over the step and follow it exactly.
 *
 * Leakage, balancing, limiter and standby draw from the inner voltage; cell and driver meet at the terminals, behind
 * the series resistance.
 *
 * source: HochbruckOstermann2010 (exponential integrators), ZubietaBonert2000 (store)
 */
export class LampStepper {
  readonly path: ChargingPath;
  readonly lamp: LampParams;

  // State.
  charge_C = 0;
  main_V = 0;
  slow1_V = 0;
  slow2_V = 0;

  // Mode, set by the caller.
  /** Share of the time the LED is on; 0 is off. */
  share = 0;
  /** The driver has stopped at its floor and waits. */
  stopped = false;
  /** The point of expansion may miss the middle of the path by this, and by a share of the path. */
  private middleSettled_V = 2e-4;
  private middleShare = 0.1;
  /**
   * A correction of the diode's junction below this is the last: the currents follow it to second order, so that its
   * cube is left, some 1e-5 of the current.
   */
  private junctionSettled_V = 1e-3;

  // Result of the last step or settle.
  terminal_V = 0;
  /** Rates of the inner voltage at the start and the end of the step, V/s. */
  startRate = 0;
  endRate = 0;
  error_V = 0;
  end_C = 0;
  endMain_V = 0;
  endSlow1_V = 0;
  endSlow2_V = 0;

  // Sums over the last step: coulombs, joules, lumen seconds.
  in_C = 0;
  out_C = 0;
  cell_J = 0;
  diode_J = 0;
  resistance_J = 0;
  slow_J = 0;
  leakage_J = 0;
  limiter_J = 0;
  standby_J = 0;
  load_J = 0;
  led_J = 0;
  led_C = 0;
  light_lm_s = 0;

  private readonly c0: number;
  private readonly c1: number;
  private readonly ohm: number;
  private readonly pathSeries_ohm: number;
  private readonly slow1: SlowCurrent;
  private readonly slow2: SlowCurrent;
  private readonly fold_V: number;
  private readonly leakScale_A: number;
  private readonly floor_V: number;
  private readonly foldFinite: boolean;
  private readonly balancing_S: number;
  private readonly limiter_V: number;
  private readonly limiter_ohm: number;
  private readonly belowFloor_A: number;
  private readonly standbyOff_A: number;
  readonly draw: LoadDraw;
  private leakNow_A = 0;

  constructor(lamp: LampParams) {
    const { store, driver } = lamp;
    this.lamp = lamp;
    this.path = new ChargingPath(lamp.cell, lamp.diode);
    this.draw = new LoadDraw(driver.law, lamp.load);
    this.c0 = store.capacitance_F;
    this.c1 = store.rise_F_V;
    this.ohm = store.series_ohm;
    this.pathSeries_ohm = lamp.cell.series_ohm + lamp.diode.series_ohm;
    this.slow1 = new SlowCurrent(store.slow[0]);
    this.slow2 = new SlowCurrent(store.slow[1]);
    this.fold_V = store.leakageFold_V;
    this.foldFinite = Number.isFinite(store.leakageFold_V);
    this.leakScale_A = this.foldFinite
      ? store.leakage_A / Math.expm1(store.rated_V / store.leakageFold_V)
      : store.leakage_A / store.rated_V;
    this.floor_V = driver.floor_V;
    this.balancing_S = store.balancing_S;
    this.limiter_V = store.limiter_V;
    this.limiter_ohm = store.limiter_ohm;
    this.belowFloor_A = driver.belowFloor_A;
    this.standbyOff_A = driver.standby_A;
  }

  /** How closely the middle of a step is found, for the error of the store's voltage allowed in one step. */
  setTolerance(tolerance_V: number): void {
    const finer = Math.min(1, tolerance_V / 1e-4);
    this.middleSettled_V = 2e-4 * finer;
    this.middleShare = 0.1 * finer;
    this.junctionSettled_V = 1e-3 * Math.cbrt(finer);
  }

  /** Puts the whole store, slow branches too, at one voltage. */
  restAt(store_V: number): void {
    this.main_V = store_V;
    this.charge_C = storeCharge_C(this.lamp.store, store_V);
    this.slow1_V = store_V;
    this.slow2_V = store_V;
    this.terminal_V = store_V;
  }

  /** Charge of all branches, coulombs. */
  wholeCharge_C(): number {
    const [slow1, slow2] = this.lamp.store.slow;
    return this.charge_C + slow1.capacitance_F * this.slow1_V + slow2.capacitance_F * this.slow2_V;
  }

  /** Sets light on the cell and the temperature of everything. */
  setConditions(light_W_m2: number, temperature_degC: number): void {
    this.path.setConditions(light_W_m2, temperature_degC);
    this.leakNow_A = this.leakScale_A * leakageWarming(this.lamp.store, temperature_degC);
  }

  /** Leakage current at an inner voltage under the present temperature, amperes. */
  leakageAt_A(main_V: number): number {
    return this.foldFinite ? this.leakNow_A * (Math.exp(main_V / this.fold_V) - 1) : this.leakNow_A * main_V;
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
    this.slow1_V = this.endSlow1_V;
    this.slow2_V = this.endSlow2_V;
  }

  /** Lumens of the lit LED at a terminal voltage, averaged over its share of the time. */
  light_lm(terminal_V: number): number {
    return this.share * this.draw.at(this.draw.columns.light_lm, terminal_V);
  }

  /**
   * Tries a step from the present state; `accept` takes it over.
   *
   * in: duration_s, 0 or more
   * out: true where the middle was found; then error_V, terminal_V, endRate, the end state and all sums are those of
   *   the step. error_V is an estimate of what the expansion leaves out of the store's voltage
   */
  tryStep(duration_s: number): boolean {
    const h = duration_s;
    const path = this.path;
    const { photocurrent_A, saturation_A, thermal_V, shunt_S, isSwitch } = path;
    const { diodeSaturation_A, diodeThermal_V, diodeLeak_S } = path;
    const { c0, c1, ohm, pathSeries_ohm, foldFinite, fold_V, leakNow_A, floor_V, draw } = this;
    const { balancing_S, limiter_V, limiter_ohm, slow1, slow2 } = this;
    const { middleSettled_V, middleShare, junctionSettled_V } = this;
    const from_V = this.main_V;
    const dark = photocurrent_A === 0;
    const on = this.share > 0 && !this.stopped;
    const standbyFull_A = on ? 0 : this.stopped ? this.belowFloor_A : this.standbyOff_A;
    const highest_V = Math.max(from_V, path.openCircuit_V);

    if (slow1.exists) slow1.begin(from_V, this.slow1_V, h);
    if (slow2.exists) slow2.begin(from_V, this.slow2_V, h);

    let V = dark ? from_V + 0.5 * h * this.lastDarkRate : from_V;
    let terminal = V;
    let v = path.startingJunction_V(V);
    let rise_V = 0;
    let bulge_V = 0;
    let leakAt_V = Number.NEGATIVE_INFINITY;
    let grown = 0;
    let follows = 0;
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
        const x = v / diodeThermal_V;
        const e = x < -40 ? 0 : diodeSaturation_A * Math.exp(x);
        const slope = e / diodeThermal_V;
        bend = slope / diodeThermal_V;
        i = e - diodeSaturation_A + diodeLeak_S * v;
        g = slope + diodeLeak_S + 1e-18;
      }
      // Driver.
      let load = 0;
      let loadSlope = 0;
      let loadBend = 0;
      let damp = 1;
      if (on) {
        draw.at_V(terminal, this.share);
        load = draw.current_A;
        loadSlope = draw.slope_S;
        loadBend = draw.bend;
        damp = 1 / (1 + ohm * loadSlope);
      }
      const endChange = (V + ohm * (i - load) - terminal) * damp;
      // Cell. In the dark its junction carries microvolts, where the exponential is a straight line.
      const u = terminal + v + pathSeries_ohm * i;
      const relative = u / thermal_V;
      const e = dark && relative < 1e-3 ? saturation_A * (1 + relative) : saturation_A * Math.exp(relative);
      const cellSlope = e / thermal_V;
      const fall = cellSlope + shunt_S;
      const offCell = photocurrent_A - (e - saturation_A) - u * shunt_S - i;
      // The junction at this store voltage, corrected; currents there to second order.
      const lean = fall * (damp * ohm * g + 1 + pathSeries_ohm * g) + g;
      let dv = (offCell - fall * endChange) / lean;
      if (dv > 0.3) dv = 0.3;
      v += dv;
      const current = i + dv * (g + 0.5 * bend * dv);
      const conductance = g + bend * dv;
      terminal += endChange + damp * ohm * g * dv;
      follows = (-fall * damp) / lean;
      const inSlope = conductance * follows;
      const terminalSlope = damp * (1 + ohm * inSlope);
      const loadDown = loadSlope * terminalSlope;

      // Drains of the inner voltage.
      let leak: number;
      let leakSlope: number;
      if (foldFinite) {
        // One exponential a step; between rounds the series serves, as long as they are near.
        const away = (V - leakAt_V) / fold_V;
        if (away < 0.1 && away > -0.1) grown *= 1 + away * (1 + away * (0.5 + away * (1 / 6)));
        else grown = leakNow_A * Math.exp(V / fold_V);
        leakAt_V = V;
        leak = grown - leakNow_A;
        leakSlope = grown / fold_V;
      } else {
        leakSlope = leakNow_A;
        leak = leakNow_A * V;
      }
      let bleed = balancing_S * V;
      let bleedSlope = balancing_S;
      if (V > limiter_V) {
        bleed += (V - limiter_V) / limiter_ohm;
        bleedSlope += 1 / limiter_ohm;
      }
      let standby = standbyFull_A;
      let standbySlope = 0;
      if (V < floor_V) {
        standby *= V / floor_V;
        standbySlope = standbyFull_A / floor_V;
      }
      const slow_A =
        (slow1.exists ? slow1.follow(rise_V, bulge_V) : 0) +
        (slow2.exists ? slow2.follow(rise_V, bulge_V) : 0);

      const loadNow = on ? load + loadSlope * (endChange + damp * ohm * g * dv) : 0;
      const net = current - loadNow - leak - bleed - standby - slow_A;
      const farad = c0 + c1 * V;
      const rate = net / farad;
      const netSlope = inSlope - loadDown - leakSlope - bleedSlope - standbySlope;
      const pull = (netSlope - rate * c1) / farad;
      // The path x(t) about V solves x' = rate + pull x; where it is at half time is where the circuit must be solved.
      const z = -0.5 * pull * h;
      const small = z < 0.02 && z > -0.02;
      const half = small ? 1 - z * (1 - z * (0.5 - z * (1 / 6 - z / 24))) : Math.exp(-z);
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
      bulge_V = shift - from_x - 0.5 * newRise_V;
      if (!settled) {
        V += shift;
        v += follows * shift;
        terminal += terminalSlope * shift;
        if (v > diodeThermal_V * 60 + 1) return false;
        continue;
      }

      // Integrals of x and x squared along the path.
      const to_x = from_x + rise_V;
      let x1: number;
      let x2: number;
      if (z < 0.15 && z > -0.15) {
        x1 = (h / 6) * (from_x + 4 * shift + to_x);
        x2 = (h / 6) * (from_x * from_x + 4 * shift * shift + to_x * to_x);
      } else {
        const end_x = -rate / pull;
        const gap = from_x - end_x;
        const whole = half * half;
        const first = (1 - whole) / -pull;
        x1 = end_x * h + gap * first;
        x2 = end_x * end_x * h + 2 * end_x * gap * first + (gap * gap * (1 - whole * whole)) / (-2 * pull);
      }
      const straight_x1 = x1;
      // A slow branch draws more early in the step than late, or the reverse: what that moves the path, on average.
      if (slow1.exists) x1 -= slow1.ahead_C_s() / farad;
      if (slow2.exists) x1 -= slow2.ahead_C_s() / farad;
      // Half bends of the current in, the junction, the load and the leakage.
      const uSlope = terminalSlope + follows * (1 + pathSeries_ohm * conductance);
      const junctionBend =
        (bend * follows * follows * (1 + fall * pathSeries_ohm) + (cellSlope / thermal_V) * uSlope * uSlope) /
        -(fall * (1 + pathSeries_ohm * conductance) + conductance);
      const inHalf = 0.5 * (conductance * junctionBend + bend * follows * follows);
      const junctionHalf = 0.5 * junctionBend;
      const loadHalf = 0.5 * loadBend * terminalSlope * terminalSlope;
      const leakHalf = foldFinite ? (0.5 * leakSlope) / fold_V : 0;
      const terminalHalf = ohm * (inHalf - loadHalf);
      // The bends move the path itself, too; on average over the step by this.
      x1 += (((inHalf - loadHalf - leakHalf) * x2) / farad) * 0.5 * h * phi;

      // The same, at the middle of the step, for what is read there.
      const middle_x = h > 0 ? shift + (1.5 * (x1 - straight_x1)) / h : shift;

      // Charges.
      const in_C = h * current + inSlope * x1 + inHalf * x2;
      const load_C = h * loadNow + loadDown * x1 + loadHalf * x2;
      const leak_C = h * leak + leakSlope * x1 + leakHalf * x2;
      const bleed_C = h * bleed + bleedSlope * x1;
      const standby_C = h * standby + standbySlope * x1;
      const drained_C = load_C + leak_C + bleed_C + standby_C;
      this.in_C = in_C;
      this.out_C = drained_C;
      this.end_C = this.charge_C + (in_C - drained_C - h * slow_A);
      if (this.end_C < 0) return false;
      this.endMain_V = storeVoltage_V(this.lamp.store, this.end_C);
      this.endSlow1_V = slow1.exists && h > 0 ? this.slow1_V + slow1.rise_V() : this.slow1_V;
      this.endSlow2_V = slow2.exists && h > 0 ? this.slow2_V + slow2.rise_V() : this.slow2_V;
      const slowEnd_A = (slow1.exists ? slow1.end_A() : 0) + (slow2.exists ? slow2.end_A() : 0);
      const end_x = this.endMain_V - V;
      this.terminal_V = terminal + terminalSlope * end_x;
      this.endRate = (net + slow_A - slowEnd_A + netSlope * end_x) / (c0 + c1 * this.endMain_V);
      this.startRate = rate + pull * from_x;
      if (dark) this.lastDarkRate = this.endRate;
      // What the expansion leaves out, from what it holds: the next order is smaller by the path over the length on
      // which each curve bends.
      const reach = Math.max(from_x < 0 ? -from_x : from_x, end_x < 0 ? -end_x : end_x);
      const inReach = 0.3 * Math.min(4, reach / (3 * diodeThermal_V)) + Math.abs(z);
      const leftOut =
        (inHalf < 0 ? -inHalf : inHalf) * inReach +
        ((loadHalf < 0 ? -loadHalf : loadHalf) + leakHalf) * reach;
      // A slow branch that settles within the step bends the path by about this.
      const bent_C = h > 0 ? (slow1.exists ? slow1.bent_C() : 0) + (slow2.exists ? slow2.bent_C() : 0) : 0;
      this.error_V = (leftOut * x2 + SLOW_ERROR * bent_C) / farad;

      // Energies: each the integral of a product of two expansions, to second order.
      const rd = path.diodeSeries_ohm;
      const drop0 = v + rd * current;
      const drop1 = follows + rd * inSlope;
      const drop2 = junctionHalf + rd * inHalf;
      const diode0 = current * drop0;
      const diode1 = current * drop1 + inSlope * drop0;
      const diode2 = current * drop2 + inSlope * drop1 + inHalf * drop0;
      this.diode_J = h * diode0 + x1 * diode1 + x2 * diode2;
      const given0 = current * terminal;
      const given1 = current * terminalSlope + inSlope * terminal;
      const given2 = current * terminalHalf + inSlope * terminalSlope + inHalf * terminal;
      this.cell_J = this.diode_J + h * given0 + x1 * given1 + x2 * given2;
      const through0 = current - loadNow;
      const through1 = inSlope - loadDown;
      this.resistance_J =
        ohm *
        (h * through0 * through0 +
          x1 * 2 * through0 * through1 +
          x2 * (through1 * through1 + 2 * through0 * (inHalf - loadHalf)));
      this.leakage_J = V * leak_C + leak * x1 + leakSlope * x2;
      this.limiter_J = V * bleed_C + bleed * x1 + bleedSlope * x2;
      this.standby_J = V * standby_C + standby * x1 + standbySlope * x2;
      this.slow_J = (slow1.exists ? slow1.heat_J() : 0) + (slow2.exists ? slow2.heat_J() : 0);
      if (on) {
        this.load_J =
          h * terminal * loadNow +
          x1 * (terminal * loadDown + terminalSlope * loadNow) +
          x2 * (terminalSlope * loadDown + terminal * loadHalf + terminalHalf * loadNow);
        this.led_J = this.load_J * draw.at(draw.columns.efficiency, terminal);
        this.led_C =
          this.share *
          this.meanAlong(draw.columns.led_A, terminal, terminalSlope, from_x, middle_x, end_x) *
          h;
        this.light_lm_s =
          this.share *
          this.meanAlong(this.draw.columns.light_lm, terminal, terminalSlope, from_x, middle_x, end_x) *
          h;
      } else {
        this.load_J = 0;
        this.led_J = 0;
        this.led_C = 0;
        this.light_lm_s = 0;
      }
      return true;
    }
    return false;
  }

  private lastDarkRate = 0;

  /** Mean of a column of the load table over the step, by Simpson's rule. */
  private meanAlong(
    column: Float64Array,
    terminal_V: number,
    slope: number,
    from_x: number,
    middle_x: number,
    to_x: number,
  ): number {
    const draw = this.draw;
    return (
      (draw.at(column, terminal_V + slope * from_x) +
        4 * draw.at(column, terminal_V + slope * middle_x) +
        draw.at(column, terminal_V + slope * to_x)) /
      6
    );
  }
}
