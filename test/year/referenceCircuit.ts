import type { LampParams } from '../../sim/lamp/params.ts';

/** Boltzmann constant over elementary charge, V/K (SI 2019, exact). */
const K_OVER_Q = 1.380649e-23 / 1.602176634e-19;
const at25 = (degC: number) => (degC + 273.15) / 298.15;

/** Voltages of the three branches: main, delayed, more delayed. */
export type Branches = [number, number, number];

/**
 * The lamp's circuit written a second time, straight from the equations and by bisection throughout: slow, plain, and
 * sharing nothing with the simulator but the parameters. For tests only.
 */
export class ReferenceCircuit {
  share = 0;
  stopped = false;
  private readonly lamp: LampParams;
  private light_A = 0;
  private cellSaturation_A = 0;
  private cellThermal_V = 1;
  private diodeSaturation_A = 0;
  private diodeThermal_V = 1;
  private diodeLeak_S = 0;
  private leakFactor = 1;
  current_A = 0;
  terminal_V = 0;
  load_A = 0;

  constructor(lamp: LampParams) {
    this.lamp = lamp;
  }

  conditions(light_W_m2: number, degC: number): void {
    const { cell, diode, capacitor } = this.lamp;
    const warmer = degC - 25;
    const growth = 1 + cell.currentTempco_per_K * warmer;
    this.light_A = (cell.photocurrent_A * growth * light_W_m2) / 1000;
    this.cellThermal_V = cell.idealityTimesJunctions * K_OVER_Q * (degC + 273.15);
    const open_V = cell.openCircuit_V + cell.voltageTempco_V_per_K * warmer;
    this.cellSaturation_A =
      (cell.photocurrent_A * growth - open_V / cell.shunt_ohm) / (Math.exp(open_V / this.cellThermal_V) - 1);
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
   * Current from the cell into a capacitor terminal at a voltage behind a further resistance, by bisection on the diode's
   * junction voltage.
   */
  pathCurrent(capacitor_V: number, further_ohm = 0): number {
    const { cell, diode } = this.lamp;
    const ohm = cell.series_ohm + diode.series_ohm + further_ohm;
    const through = (v: number) =>
      diode.kind === 'switch'
        ? v > 0
          ? v / diode.on_ohm
          : v * this.diodeLeak_S
        : this.diodeSaturation_A * Math.expm1(v / this.diodeThermal_V) + v * this.diodeLeak_S;
    const surplus = (v: number) => {
      const i = through(v);
      const u = capacitor_V + v + ohm * i;
      return (
        this.light_A - this.cellSaturation_A * Math.expm1(u / this.cellThermal_V) - u / cell.shunt_ohm - i
      );
    };
    let low = -capacitor_V - 1;
    let high = 2;
    for (let round = 0; round < 75; round++) {
      const middle = (low + high) / 2;
      if (surplus(middle) > 0) low = middle;
      else high = middle;
    }
    return through((low + high) / 2);
  }

  /** Current the lit driver draws at its terminals: from what the scenario states, not from the law under test. */
  drawn_A(terminal_V: number): number {
    const { law } = this.lamp.driver;
    const milli = (law.setting?.value ?? 0) / 1000;
    switch (law.setting?.key) {
      case 'power_mW':
        return (this.share * milli) / terminal_V;
      case 'current_mA':
        return this.share * milli;
      case 'conductance_mS':
        return this.share * milli * terminal_V;
      case 'inductance_uH':
        return this.share * this.boost_A(terminal_V, this.output_V(terminal_V));
      default: {
        const { table } = law.keys((value) => value) as {
          table: { capacitor_V: number; current_mA: number }[];
        };
        const rows_V = table.map((row) => row.capacitor_V);
        const rows_A = table.map((row) => row.current_mA / 1000);
        return this.share * line(rows_V, rows_A, terminal_V);
      }
    }
  }

  private boost_A(terminal_V: number, out_V: number): number {
    const { inductor, limited } = this.lamp.driver.law;
    const { inductance_uH, frequency_kHz, duty } = inductor!;
    if (terminal_V >= (1 - duty) * out_V) return limited!.setting!.value / 1000;
    const inductor_S = duty ** 2 / (2e-3 * inductance_uH * frequency_kHz);
    return (inductor_S * terminal_V * out_V) / (out_V - terminal_V);
  }

  /** Output of a boost that is settled with its LED: by bisection on the output voltage. */
  private output_V(terminal_V: number): number {
    const { led, driver } = this.lamp;
    const { rectifier_V } = driver.law;
    let low = led.forward_V[0]! + rectifier_V;
    let high = led.forward_V.at(-1)! + rectifier_V;
    if (low === high) return low;
    for (let round = 0; round < 60; round++) {
      const out_V = (low + high) / 2;
      const drawn_A = this.boost_A(terminal_V, out_V);
      const power_W = line(driver.efficiencyAt_V, driver.efficiency, terminal_V) * terminal_V * drawn_A;
      const forward_V = out_V - rectifier_V;
      // Lumped LED: the current at which it holds this forward voltage must be what the power gives at it.
      const led_A = power_W / forward_V;
      if (line(led.current_A, led.forward_V, led_A) > forward_V) low = out_V;
      else high = out_V;
    }
    return (low + high) / 2;
  }

  /** Rates of the three branches; sets current_A, load_A and terminal_V. */
  rates([main_V, delayed1_V, delayed2_V]: Branches): Branches {
    const { capacitor, driver } = this.lamp;
    const on = this.share > 0 && !this.stopped;
    let load_A = 0;
    let in_A = this.pathCurrent(main_V, capacitor.series_ohm);
    let terminal_V = main_V + capacitor.series_ohm * in_A;
    if (on && capacitor.series_ohm === 0) load_A = this.drawn_A(main_V);
    else if (on) {
      // The driver pulls the terminals down; the cell sees that. A contraction, since the resistance is small.
      for (let round = 0; round < 100; round++) {
        const next_A = this.drawn_A(terminal_V);
        in_A = this.pathCurrent(main_V - capacitor.series_ohm * next_A, capacitor.series_ohm);
        terminal_V = main_V + capacitor.series_ohm * (in_A - next_A);
        const settled = Math.abs(next_A - load_A) < 1e-14;
        load_A = next_A;
        if (settled) break;
      }
    }
    this.current_A = in_A;
    this.load_A = load_A;
    this.terminal_V = terminal_V;
    const leak_A =
      this.leakFactor *
      (Number.isFinite(capacitor.leakageEFold_V)
        ? (capacitor.leakage_A * Math.expm1(main_V / capacitor.leakageEFold_V)) /
          Math.expm1(capacitor.rated_V / capacitor.leakageEFold_V)
        : (capacitor.leakage_A * main_V) / capacitor.rated_V);
    const limiter_A =
      main_V > capacitor.limiter_V ? (main_V - capacitor.limiter_V) / capacitor.limiter_ohm : 0;
    let standby_A = on ? 0 : this.stopped ? driver.belowCutoff_A : driver.standby_A;
    if (main_V < driver.cutoff_V) standby_A *= main_V / driver.cutoff_V;
    const [one, two] = capacitor.delayed;
    const delayed1_A = one.capacitance_F > 0 ? (main_V - delayed1_V) / one.resistance_ohm : 0;
    const delayed2_A = two.capacitance_F > 0 ? (main_V - delayed2_V) / two.resistance_ohm : 0;
    const net_A =
      in_A -
      load_A -
      leak_A -
      limiter_A -
      main_V * capacitor.balancing_S -
      standby_A -
      delayed1_A -
      delayed2_A;
    return [
      net_A / (capacitor.capacitance_F + capacitor.rise_F_V * main_V),
      one.capacitance_F > 0 ? delayed1_A / one.capacitance_F : 0,
      two.capacitance_F > 0 ? delayed2_A / two.capacitance_F : 0,
    ];
  }
}

/** What happened during a reference run: hourly capacitor voltages, and the instants of stops and restarts. */
export interface ReferenceRun {
  hourEnd_V: number[];
  stops_s: number[];
  restarts_s: number[];
  state: Branches;
}

/**
 * Classical Runge-Kutta of fourth order with a fixed step over hours of constant light, stop and restart included.
 *
 * in: lamp; light_W_m2 and temperature_degC by the hour; start, the branches; shareAt, share of the LED by the time in
 *   seconds, which changes at whole steps only; step_s, a divisor of 3600; each, called after every step
 */
export function referenceRun(
  lamp: LampParams,
  light_W_m2: ArrayLike<number>,
  temperature_degC: ArrayLike<number>,
  start: Branches,
  shareAt: (time_s: number) => number,
  step_s: number,
  each?: (time_s: number, main_V: number) => void,
): ReferenceRun {
  const circuit = new ReferenceCircuit(lamp);
  const run: ReferenceRun = { hourEnd_V: [], stops_s: [], restarts_s: [], state: [...start] };
  const { cutoff_V, restart_V } = lamp.driver;
  const perHour = Math.round(3600 / step_s);
  for (let hour = 0; hour < light_W_m2.length; hour++) {
    circuit.conditions(light_W_m2[hour]!, temperature_degC[hour]!);
    for (let k = 0; k < perHour; k++) {
      const now_s = hour * 3600 + k * step_s;
      circuit.share = shareAt(now_s);
      let done_s = 0;
      for (let part = 0; part < 8 && done_s < step_s; part++) {
        const whole_s = step_s - done_s;
        const after = rungeKutta(circuit, run.state, whole_s);
        circuit.rates(after);
        const passed = () =>
          circuit.stopped
            ? circuit.terminal_V >= restart_V
            : circuit.share > 0 && circuit.terminal_V <= cutoff_V;
        if (!passed()) {
          run.state = after;
          break;
        }
        let low = 0;
        let high = whole_s;
        for (let round = 0; round < 40; round++) {
          const middle = (low + high) / 2;
          circuit.rates(rungeKutta(circuit, run.state, middle));
          if (passed()) high = middle;
          else low = middle;
        }
        run.state = rungeKutta(circuit, run.state, high);
        done_s += high;
        (circuit.stopped ? run.restarts_s : run.stops_s).push(now_s + done_s);
        circuit.stopped = !circuit.stopped;
      }
      each?.(now_s + step_s, run.state[0]);
    }
    run.hourEnd_V.push(run.state[0]);
  }
  return run;
}

function rungeKutta(circuit: ReferenceCircuit, y: Branches, h: number): Branches {
  const ahead = (k: Branches, by: number): Branches => [y[0] + by * k[0], y[1] + by * k[1], y[2] + by * k[2]];
  const k1 = circuit.rates(y);
  const k2 = circuit.rates(ahead(k1, h / 2));
  const k3 = circuit.rates(ahead(k2, h / 2));
  const k4 = circuit.rates(ahead(k3, h));
  const mean = (i: 0 | 1 | 2) => (k1[i] + 2 * k2[i] + 2 * k3[i] + k4[i]) / 6;
  return ahead([mean(0), mean(1), mean(2)], h);
}

function line(xs: readonly number[], ys: readonly number[], x: number): number {
  if (x <= xs[0]!) return ys[0]!;
  for (let k = 1; k < xs.length; k++) {
    if (x < xs[k]!) return ys[k - 1]! + ((ys[k]! - ys[k - 1]!) * (x - xs[k - 1]!)) / (xs[k]! - xs[k - 1]!);
  }
  return ys.at(-1)!;
}
