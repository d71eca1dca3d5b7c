import { exp } from '../../common/elementary/exp.ts';
import { log1p } from '../../common/elementary/log.ts';

/** One cell at 1000 W/m2 and 25 degC. */
export interface SingleDiode {
  photocurrent_A: number;
  saturation_A: number;
  ideality: number;
  series_ohm: number;
  shunt_ohm: number;
}

/** What is known of silicon cells before anything is read: from memory. */
export const SILICON = {
  /** Ideality of one junction: diffusion alone gives 1; the error is a standard deviation. */
  leastIdeality: 1,
  usualIdeality: 1.35,
  idealityError: 0.1,
  /** Shunt resistance times short-circuit current of a poor small cell, a fair one and the best. */
  poorShunt_V: 25,
  fairShunt_V: 200,
  bestShunt_V: 5000,
} as const;

/** A voltage behind a resistance: 0 V for an ammeter or a resistor, 0 ohm for a stated voltage. */
export interface Load {
  voltage_V: number;
  ohm: number;
}

const LEAST_OHM = 1e-6;

/**
 * The single-diode equation: a cell's current against the voltage of its junction, in one light and at one
 * temperature. Results are fields, so that the hourly loop allocates nothing.
 * source: DeSoto2006, eq. 1
 */
export class SingleDiodeCurve {
  photocurrent_A: number;
  saturation_A: number;
  /** Ideality times junctions times kT/q. */
  thermal_V: number;
  /** A fit may take it below 0. */
  readonly shunt_S: number;

  /** Results of at: current, how steeply it falls with the junction's voltage, and how much more steeply. */
  cell_A = 0;
  cellFall_S = 0;
  cellBend_A_V2 = 0;

  constructor(shunt_S: number, thermal_V = 1, saturation_A = 0, photocurrent_A = 0) {
    this.shunt_S = shunt_S;
    this.thermal_V = thermal_V;
    this.saturation_A = saturation_A;
    this.photocurrent_A = photocurrent_A;
  }

  /** Sets the cell's current and its slopes at a voltage of the junction. */
  at(junction_V: number): void {
    const grown_A = this.saturation_A * exp(junction_V / this.thermal_V);
    this.cell_A = this.photocurrent_A - (grown_A - this.saturation_A) - junction_V * this.shunt_S;
    this.cellFall_S = grown_A / this.thermal_V + this.shunt_S;
    this.cellBend_A_V2 = grown_A / (this.thermal_V * this.thermal_V);
  }

  /**
   * Voltage of the junction, volts, where the cell gives a current; cellFall_S is then the slope there.
   * in: current_A, at most the photocurrent; 0 for the open circuit
   * valid: a shunt above 0
   */
  junctionAtCurrent_V(current_A: number): number {
    const surplus_A = this.photocurrent_A - current_A;
    // Right of the root on both counts: as if there were no shunt, and as if there were no junction.
    let u = Math.min(this.thermal_V * log1p(surplus_A / this.saturation_A), surplus_A / this.shunt_S);
    for (let i = 0; i < 60; i++) {
      this.at(u);
      const off = this.cell_A - current_A;
      // Halley's correction: the error cubes, so that a small change is the last.
      const change = off / (this.cellFall_S + (0.5 * off * this.cellBend_A_V2) / this.cellFall_S);
      u += change;
      if (Math.abs(change) < 1e-4) {
        this.cellFall_S += this.cellBend_A_V2 * change;
        break;
      }
    }
    return u;
  }

  /**
   * Current of a bare cell into a load, amperes, and the voltage of its junction there: no blocking diode, any voltage.
   *
   * in: series_ohm; load, undefined for an open circuit
   */
  intoLoad(series_ohm: number, load: Load | undefined): { current_A: number; junction_V: number } {
    const { photocurrent_A, saturation_A, thermal_V, shunt_S } = this;
    const load_S = load === undefined ? 0 : 1 / Math.max(series_ohm + load.ohm, LEAST_OHM);
    const load_V = load?.voltage_V ?? 0;
    // Right of the root, where the curve falls ever more steeply: Newton from there does not pass it.
    const surplus_A = photocurrent_A + Math.max(0, load_V) * load_S;
    let u = thermal_V * log1p(surplus_A / saturation_A);
    if (shunt_S < 0) u = thermal_V * log1p((surplus_A - shunt_S * u * 1.5) / saturation_A);
    if (load !== undefined) u = Math.min(u, Math.max(load_V + photocurrent_A / load_S, 0) + 1e-3);
    for (let round = 0; round < 100; round++) {
      this.at(u);
      const change = (this.cell_A - (u - load_V) * load_S) / (this.cellFall_S + load_S);
      u += change;
      if (Math.abs(change) < 1e-12) break;
    }
    return { current_A: (u - load_V) * load_S, junction_V: u };
  }
}

/**
 * Saturation current, amperes, with which a cell's curve passes through its short circuit and its open circuit.
 *
 * in: short_A and open_V; thermal_V, as SingleDiodeCurve has it; series and shunt resistance
 */
export function saturationBetween_A(
  short_A: number,
  open_V: number,
  { thermal_V, series_ohm, shunt_ohm }: { thermal_V: number; series_ohm: number; shunt_ohm: number },
): number {
  return (
    (short_A * (1 + series_ohm / shunt_ohm) - open_V / shunt_ohm) /
    (exp(open_V / thermal_V) - exp((short_A * series_ohm) / thermal_V))
  );
}
