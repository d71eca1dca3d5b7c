import type { CellDiodeCircuit } from '../../sim/lamp/CellDiodeCircuit.ts';
import type { LitLoad } from '../../sim/lamp/loadTable.ts';
import type { LampParams } from '../../sim/lamp/params.ts';
import { built } from './built.ts';

/**
 * The lamp's circuit as a right-hand side for an ODE library: rates of the three branches at a state. Written for
 * speed with the simulator's own cell, diode and driver, so that a comparison is one of methods, not of how well a
 * diode is solved. The bench holds it against test/year/referenceCircuit.ts.
 */
export class PlainCircuit {
  share = 0;
  stopped = false;
  /** Voltage at the driver's terminals, after `rates`. */
  terminal_V = 0;
  evaluations = 0;
  private readonly lamp: LampParams;
  private readonly path: CellDiodeCircuit;
  private readonly draw: LitLoad;
  private readonly leakScale_A: number;
  private leak_A = 0;
  beyond = false;

  constructor(lamp: LampParams) {
    const { capacitor } = lamp;
    if (!Number.isFinite(capacitor.leakageEFold_V)) throw new Error('written for exponential leakage');
    this.lamp = lamp;
    this.path = new built.CellDiodeCircuit(lamp.cell, lamp.diode);
    this.draw = new built.LitLoad(lamp.load);
    this.leakScale_A = capacitor.leakage_A / Math.expm1(capacitor.rated_V / capacitor.leakageEFold_V);
  }

  conditions(light_W_m2: number, degC: number): void {
    this.path.setConditions(light_W_m2, degC);
    this.leak_A = this.leakScale_A * built.leakageWarming(this.lamp.capacitor, degC);
  }

  /** LED output at a terminal voltage: above a share of it a boost is beyond its formula. */
  output_V(terminal_V: number): number {
    const { output_V, step_V } = this.lamp.load;
    const row = Math.min(Math.max(terminal_V / step_V, 0), output_V.length - 1.000001);
    const low_V = output_V[Math.floor(row)]!;
    return low_V + (output_V[Math.floor(row) + 1]! - low_V) * (row % 1);
  }

  /** Whether the limit stated beyond a boost's formula holds. */
  setBeyond(beyond: boolean): void {
    this.beyond = beyond;
    this.draw.setAbove(beyond);
  }

  rates(state: readonly number[]): number[] {
    this.evaluations++;
    const { capacitor, driver } = this.lamp;
    const main_V = state[0]!;
    const ohm = capacitor.series_ohm;
    const on = this.share > 0 && !this.stopped;
    let load_A = 0;
    let in_A = 0;
    let terminal_V = main_V;
    // Cell and driver share the terminals behind a few milliohms: rounds of a contraction.
    for (let round = 0; round < 20; round++) {
      if (on) {
        this.draw.share = this.share;
        this.draw.at(terminal_V);
        load_A = this.draw.current_A;
      }
      in_A = this.path.solve(main_V - ohm * load_A, ohm);
      const next_V = main_V + ohm * (in_A - load_A);
      const settled = Math.abs(next_V - terminal_V) < 1e-11;
      terminal_V = next_V;
      if (settled || !on) break;
    }
    this.terminal_V = terminal_V;
    const [one, two] = capacitor.delayed;
    const delayed1_A = one.capacitance_F > 0 ? (main_V - state[1]!) / one.resistance_ohm : 0;
    const delayed2_A = two.capacitance_F > 0 ? (main_V - state[2]!) / two.resistance_ohm : 0;
    let standby_A = on ? 0 : this.stopped ? driver.belowCutoff_A : driver.standby_A;
    if (main_V < driver.cutoff_V) standby_A *= main_V / driver.cutoff_V;
    const leak_A = this.leak_A * Math.expm1(main_V / capacitor.leakageEFold_V);
    const limiter_A =
      main_V > capacitor.limiter_V ? (main_V - capacitor.limiter_V) / capacitor.limiter_ohm : 0;
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
