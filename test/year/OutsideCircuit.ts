import type { LampParams } from '../../sim/lamp/params.ts';

/** Boltzmann constant over elementary charge, V/K (SI 2019, exact). */
const K_OVER_Q = 1.380649e-23 / 1.602176634e-19;
const at25 = (degC: number) => (degC + 273.15) / 298.15;

/** Voltages of the three branches: main, delayed, more delayed. */
export type Branches = [main_V: number, fast_V: number, slow_V: number];

/**
 * The lamp's circuit written a second time, straight from the equations: nothing is tabulated or expanded, each unknown
 * is found to rounding, and nothing is shared with the simulator but the parameters. For tests and the bench.
 *
 * Set duty, glow, stopped, beyond and conditions, then `rates`; what flows and the terminals are fields.
 */
export class OutsideCircuit {
  /** Share of the time the LED is on, and of its light that it shows while on; glowing at no duty it waits for motion. */
  duty = 0;
  glow = 0;
  stopped = false;
  /** A boost draws its stated limit where both that and its formula would hold. */
  beyond = false;
  /** The limiter draws; whoever integrates sees to it that the capacitor stands above its voltage then, and only then. */
  limiting = false;
  /** Terminal voltage at which discontinuous conduction ends; Infinity where it never does. */
  readonly boundary_V: number;
  current_A = 0;
  terminal_V = 0;
  load_A = 0;
  evaluations = 0;
  private readonly lamp: LampParams;
  private readonly delayed_S: readonly [number, number];
  private readonly leakScale_A: number;
  private light_A = 0;
  private cellSaturation_A = 0;
  private cellThermal_V = 1;
  private diodeSaturation_A = 0;
  private diodeThermal_V = 1;
  private diodeLeak_S = 0;
  private leakFactor = 1;
  /** The capacitor's series resistance at the present temperature. */
  private ohm = 0;
  /** Last solutions, from which the next are sought. */
  private junction_V = 0;
  private lastOutput_V: number;

  constructor(lamp: LampParams) {
    this.lamp = lamp;
    const { capacitor, led, driver } = lamp;
    const conductance = ({ capacitance_F, resistance_ohm }: (typeof capacitor.delayed)[0]) =>
      capacitance_F > 0 ? 1 / resistance_ohm : 0;
    this.delayed_S = [conductance(capacitor.delayed[0]), conductance(capacitor.delayed[1])];
    this.leakScale_A = Number.isFinite(capacitor.leakageEFold_V)
      ? capacitor.leakage_A / Math.expm1(capacitor.rated_V / capacitor.leakageEFold_V)
      : capacitor.leakage_A / capacitor.rated_V;
    this.lastOutput_V = led.forward_V.at(-1)! + driver.law.rectifier_V;
    this.boundary_V = this.findBoundary_V();
  }

  conditions(light_W_m2: number, degC: number): void {
    const { cell, diode, capacitor } = this.lamp;
    const warmer = degC - 25;
    const { atMinus20, atMinus40 } = capacitor.seriesGrowth;
    const colder = Math.min(Math.max(-20 - degC, 0), 20) / 20;
    const cold = Math.min(Math.max(-warmer, 0), 45) / 45;
    this.ohm = capacitor.series_ohm * atMinus20 ** cold * (atMinus40 / atMinus20) ** colder;
    const growth = 1 + cell.currentTempco_per_K * warmer;
    this.light_A = (cell.photocurrent_A * growth * light_W_m2) / 1000;
    this.cellThermal_V = cell.idealityTimesJunctions * K_OVER_Q * (degC + 273.15);
    const open_V = cell.openCircuit_V + cell.voltageTempco_V_per_K * warmer;
    this.cellSaturation_A =
      (cell.photocurrent_A * growth - open_V / cell.shunt_ohm) / Math.expm1(open_V / this.cellThermal_V);
    this.diodeThermal_V = diode.ideality * K_OVER_Q * (degC + 273.15);
    const inverse_per_V = 1 / (K_OVER_Q * 298.15) - 1 / (K_OVER_Q * (degC + 273.15));
    this.diodeSaturation_A =
      diode.barrier_eV === 0
        ? diode.saturation_A
        : diode.saturation_A *
          at25(degC) ** 2 *
          Math.exp((diode.barrier_eV / diode.ideality) * inverse_per_V);
    this.diodeLeak_S = diode.leak_S * 2 ** (warmer / diode.leakDoubling_K);
    this.leakFactor = Number.isFinite(capacitor.leakageDoubling_K)
      ? 2 ** (warmer / capacitor.leakageDoubling_K)
      : 1;
  }

  /**
   * Current from the cell into a voltage behind a further resistance: by Newton on the voltage of the diode's junction
   * within a bracket that every look narrows, halved where Newton leaves it or is slow.
   */
  pathCurrent(behind_V: number, further_ohm = 0): number {
    const { cell, diode } = this.lamp;
    const { light_A, cellSaturation_A, cellThermal_V, diodeThermal_V, diodeSaturation_A, diodeLeak_S } = this;
    const ohm = cell.series_ohm + diode.series_ohm + further_ohm;
    const isSwitch = diode.kind === 'switch';
    const shunt_S = 1 / cell.shunt_ohm;
    let low = -behind_V - 1;
    let high = 3;
    let v = Math.min(Math.max(this.junction_V, low), high);
    let through_A = 0;
    for (let round = 0; round < 200; round++) {
      const grown = isSwitch ? 0 : diodeSaturation_A * Math.exp(v / diodeThermal_V);
      const slope_S = isSwitch
        ? v > 0
          ? 1 / diode.on_ohm
          : diodeLeak_S
        : grown / diodeThermal_V + diodeLeak_S;
      through_A = isSwitch ? v * slope_S : grown - diodeSaturation_A + v * diodeLeak_S;
      const u = behind_V + v + ohm * through_A;
      const cellGrown = cellSaturation_A * Math.exp(u / cellThermal_V);
      const surplus_A = light_A - (cellGrown - cellSaturation_A) - u * shunt_S - through_A;
      if (surplus_A > 0) low = v;
      else high = v;
      const fall_S = (cellGrown / cellThermal_V + shunt_S) * (1 + ohm * slope_S) + slope_S;
      const newton = v + surplus_A / fall_S;
      const next = newton > low && newton < high && round % 20 !== 19 ? newton : (low + high) / 2;
      const change = next - v;
      v = next;
      if (Math.abs(change) < 1e-12) {
        this.junction_V = v;
        return through_A + slope_S * change;
      }
    }
    throw new Error(`no current found at ${behind_V} V`);
  }

  /** Current the lit driver draws at its terminals, on average. */
  drawn_A(terminal_V: number, beyond = this.beyond): number {
    return this.duty * this.glow * this.full_A(terminal_V, beyond);
  }

  /** What it draws while on, not dimmed: from what the scenario states, not from the law under test. */
  private full_A(terminal_V: number, beyond: boolean): number {
    const { law } = this.lamp.driver;
    const milli = (law.setting?.value ?? 0) / 1000;
    switch (law.setting?.key) {
      case 'power_mW':
        return milli / terminal_V;
      case 'current_mA':
        return milli;
      case 'conductance_mS':
        return milli * terminal_V;
      case 'inductance_uH':
        return this.boost_A(terminal_V, beyond);
      default: {
        const { table } = law.keys((value) => value) as {
          table: { capacitor_V: number; current_mA: number }[];
        };
        let k = 1;
        if (terminal_V <= table[0]!.capacitor_V) return table[0]!.current_mA / 1000;
        while (k < table.length && terminal_V >= table[k]!.capacitor_V) k++;
        const [from, to] = [table[k - 1]!, table[k]];
        if (to === undefined) return from.current_mA / 1000;
        const part = (terminal_V - from.capacitor_V) / (to.capacitor_V - from.capacitor_V);
        return (from.current_mA + part * (to.current_mA - from.current_mA)) / 1000;
      }
    }
  }

  private boost_A(terminal_V: number, beyond: boolean): number {
    const { law } = this.lamp.driver;
    if (beyond) return law.limited!.setting!.value / 1000;
    return this.formula_A(terminal_V, this.output_V(terminal_V));
  }

  private formula_A(terminal_V: number, out_V: number): number {
    const { inductance_uH, frequency_kHz, duty } = this.lamp.driver.law.inductor!;
    return ((duty ** 2 / (2e-3 * inductance_uH * frequency_kHz)) * terminal_V * out_V) / (out_V - terminal_V);
  }

  /** Output of a boost that is settled with its LED, by the secant. */
  private output_V(terminal_V: number): number {
    const { led, driver } = this.lamp;
    const { rectifier_V } = driver.law;
    if (led.forward_V[0] === led.forward_V.at(-1)) return led.forward_V[0]! + rectifier_V;
    const efficiency = line(driver.efficiencyAt_V, driver.efficiency, terminal_V);
    // Lumped LED: the current at which it holds this forward voltage must be what the power gives at it.
    const over_V = (out_V: number) => {
      const power_W = efficiency * terminal_V * this.formula_A(terminal_V, out_V);
      return line(led.current_A, led.forward_V, power_W / (out_V - rectifier_V)) + rectifier_V - out_V;
    };
    let before_V = Math.max(this.lastOutput_V, terminal_V + 0.01);
    let over = over_V(before_V);
    let out_V = before_V + over;
    for (let round = 0; round < 60 && Math.abs(out_V - before_V) > 1e-13; round++) {
      const next = over_V(out_V);
      const by_V = next === over ? 0 : (-next * (out_V - before_V)) / (next - over);
      before_V = out_V;
      over = next;
      out_V = Math.max(out_V + by_V, terminal_V + 1e-4);
    }
    this.lastOutput_V = out_V;
    return out_V;
  }

  /** By bisection: below it a boost's capacitor stands under its share of the output. */
  private findBoundary_V(): number {
    const { inductor } = this.lamp.driver.law;
    if (inductor === undefined) return Number.POSITIVE_INFINITY;
    let low = 0.05;
    // The output stands at the LED's lowest voltage at least, which keeps the formula's pole away.
    let high = (1 - inductor.duty) * this.lastOutput_V;
    for (let round = 0; round < 60; round++) {
      const middle = (low + high) / 2;
      if (middle < (1 - inductor.duty) * this.output_V(middle)) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  }

  /** Light that is seen while on at the present terminals, lumens; of a lamp that waits, what it would show. */
  light_lm(): number {
    if (this.glow === 0 || this.stopped) return 0;
    const { led, driver } = this.lamp;
    const efficiency = line(driver.efficiencyAt_V, driver.efficiency, this.terminal_V);
    const drawn = this.duty * this.glow;
    const full_A = drawn > 0 ? this.load_A / drawn : this.full_A(this.terminal_V, this.beyond);
    const power_W = efficiency * this.terminal_V * full_A;
    let led_A = 0.01;
    for (let round = 0; round < 100; round++) {
      const next_A = power_W / line(led.current_A, led.forward_V, led_A);
      const settled = Math.abs(next_A - led_A) < 1e-15;
      led_A = next_A;
      if (settled) break;
    }
    return this.glow * power_W * line(led.current_A, led.efficacy_lm_W, led_A);
  }

  /** Terminals with the LED on, both of them behind the series resistance: sets current_A, load_A and terminal_V. */
  private meet(main_V: number, beyond: boolean): void {
    const { ohm } = this;
    const at = (load_A: number) => {
      this.current_A = this.pathCurrent(main_V - ohm * load_A, ohm);
      this.terminal_V = main_V + ohm * (this.current_A - load_A);
      this.load_A = this.drawn_A(this.terminal_V, beyond);
      return this.load_A;
    };
    let before_A = this.load_A;
    let off_A = at(before_A) - before_A;
    let load_A = before_A + off_A;
    // The secant on what the driver draws less what was thought.
    for (let round = 0; round < 60 && Math.abs(load_A - before_A) > 1e-14; round++) {
      const nextOff_A = at(load_A) - load_A;
      const by_A = nextOff_A === off_A ? 0 : (-nextOff_A * (load_A - before_A)) / (nextOff_A - off_A);
      before_A = load_A;
      off_A = nextOff_A;
      load_A += by_A;
    }
  }

  /**
   * The lit driver. Above a boost's boundary it draws its limit, below it its formula's; where neither would keep the
   * terminals on its side they stay at the boundary, where both would the present one goes on.
   */
  private drive(main_V: number): void {
    this.meet(main_V, this.beyond);
    if (this.boundary_V === Number.POSITIVE_INFINITY) return;
    const holds = () => this.terminal_V >= this.boundary_V === this.beyond;
    if (holds()) return;
    this.beyond = !this.beyond;
    this.meet(main_V, this.beyond);
    if (holds()) return;
    this.beyond = !this.beyond;
    this.current_A = this.pathCurrent(this.boundary_V);
    this.terminal_V = this.boundary_V;
    this.load_A = this.current_A + (main_V - this.boundary_V) / this.ohm;
  }

  /** Rates of the three branches, V/s; sets current_A, load_A and terminal_V. */
  rates([tried_V, fast_V, slow_V]: Branches): Branches {
    this.evaluations++;
    const { capacitor, driver } = this.lamp;
    // A library that tries too long a step of a stiff circuit lands anywhere; it must hear a number to refuse it.
    const main_V = Math.min(Math.max(tried_V, -1), 2 * capacitor.rated_V + 2);
    const on = this.duty * this.glow > 0 && !this.stopped;
    if (on) this.drive(main_V);
    else {
      this.load_A = 0;
      this.current_A = this.pathCurrent(main_V, this.ohm);
      this.terminal_V = main_V + this.ohm * this.current_A;
    }
    const leaks = Number.isFinite(capacitor.leakageEFold_V)
      ? Math.expm1(main_V / capacitor.leakageEFold_V)
      : main_V;
    const limiter_A = this.limiting ? (main_V - capacitor.limiter_V) / capacitor.limiter_ohm : 0;
    let standby_A = this.stopped ? driver.belowCutoff_A : (on ? 1 - this.duty : 1) * driver.standby_A;
    if (main_V < driver.cutoff_V) standby_A *= main_V / driver.cutoff_V;
    const fast_A = (main_V - fast_V) * this.delayed_S[0];
    const slow_A = (main_V - slow_V) * this.delayed_S[1];
    const net_A =
      this.current_A -
      this.load_A -
      this.leakFactor * this.leakScale_A * leaks -
      limiter_A -
      main_V * capacitor.balancing_S -
      standby_A -
      fast_A -
      slow_A;
    const [fast, slow] = capacitor.delayed;
    return [
      net_A / (capacitor.capacitance_F + capacitor.rise_F_V * main_V),
      fast_A === 0 ? 0 : fast_A / fast.capacitance_F,
      slow_A === 0 ? 0 : slow_A / slow.capacitance_F,
    ];
  }
}

function line(xs: readonly number[], ys: readonly number[], x: number): number {
  if (x <= xs[0]!) return ys[0]!;
  for (let k = 1; k < xs.length; k++) {
    if (x < xs[k]!) return ys[k - 1]! + ((ys[k]! - ys[k - 1]!) * (x - xs[k - 1]!)) / (xs[k]! - xs[k - 1]!);
  }
  return ys.at(-1)!;
}
