import { quickExp } from '../common/quickExp.ts';
import { quickLog } from '../common/quickLog.ts';
import type { LampParams } from '../lamp/params.ts';
import { HOUR, HOUR_COLUMNS } from './circuitHours.ts';
import { PASS_ROWS_PER_UNIT, type PassTable, passTable } from './passTable.ts';

/** The shunt's correction is a straight line: above this share of the current it is looked up again. */
const SHIFTED_SHARE = 1e-3;
const MOST_LOOKS = 8;
/** A junction voltage that changes by less is found. */
const LAW_V = 2e-5;

/**
 * Cell and blocking diode in series in one light at one temperature: the current into a terminal voltage, with three
 * derivatives, at points of the curve near a voltage asked for.
 *
 * No equation is solved: a guess of the current gives, by the table of `passTable`, a point that lies exactly on the
 * curve at a voltage not far from the one asked for; its derivatives are closed. With m = M + a G and j = J + b Gl,
 * M and J the currents of the two junctions, dV/dI = -(a / m + b / j + R).
 *
 * Set the hour, then the fields target_V, in_A and junction_V (the guesses), then `look`; the results are fields.
 * source: DeSoto2006, Shockley1949; derivatives derived here
 */
export class ChargingCurve {
  /** Asked for: a terminal voltage, and how near to it the point must lie. */
  target_V = 0;
  near_V = 0.01;
  /** A point of the curve: terminal voltage, current, voltage of the diode's junction. */
  at_V = 0;
  in_A = 0;
  junction_V = 0.2;
  /** Derivatives of the current against the terminal voltage. */
  slope = 0;
  second = 0;
  third = 0;

  /** Light current of the hour; 0 in the dark. */
  photocurrent_A = 0;
  /** Open circuit of the cell, above which its junction never stands; 0 in the dark. */
  highest_V = 0;
  diodeThermal_V = 1;
  /** What flows back through a blocked diode, and what of it grows with the voltage. */
  reverse_A = 0;
  diodeLeak_S = 0;
  /** Current through the blocked diode, 0 or below, and its slope, after `block`. */
  blocked_A = 0;
  blockedSlope = 0;
  /** Factor of the leakage at this temperature. */
  warming = 1;

  /** A current, and the voltages over both junctions at it; see `readCellLaw`. */
  law_A = 0;
  lawCell_V = 0;
  lawDiode_V = 0;

  private readonly pass: PassTable;
  readonly isSwitch: boolean;
  private readonly onOhm: number;
  readonly ohm: number;
  private readonly ratio: number;
  readonly shunt_S: number;
  cellThermal_V = 1;
  /** Of the capacitor's series resistance, at the present temperature. */
  seriesGrowth = 1;
  cellSaturation_A = 0;
  private lnCellSaturation = 0;
  private lnLightOverDiode = 0;
  private shift = 0;
  private share = 1;
  private lnShare = 0;
  private perLight = 0;
  private perDiode = 1;

  constructor(lamp: LampParams) {
    const { cell, diode } = lamp;
    this.isSwitch = diode.kind === 'switch';
    this.onOhm = this.isSwitch ? diode.on_ohm : 0;
    this.ohm = cell.series_ohm + diode.series_ohm;
    this.ratio = cell.idealityTimesJunctions / diode.ideality;
    this.pass = passTable(this.isSwitch ? 1 : this.ratio);
    this.shunt_S = 1 / cell.shunt_ohm;
  }

  /** in: hours, as `circuitHours` makes them; hour, its number among them */
  setHour(hours: Float64Array, hour: number): void {
    const at = hour * HOUR_COLUMNS;
    this.diodeThermal_V = hours[at + HOUR.thermal_V]!;
    this.perDiode = hours[at + HOUR.perThermal_V]!;
    this.reverse_A = hours[at + HOUR.reverse_A]!;
    this.diodeLeak_S = hours[at + HOUR.leak_S]!;
    this.warming = hours[at + HOUR.warming]!;
    this.seriesGrowth = hours[at + HOUR.seriesGrowth]!;
    this.photocurrent_A = hours[at + HOUR.photocurrent_A]!;
    this.highest_V = hours[at + HOUR.openCircuit_V]!;
    if (this.photocurrent_A === 0) return;
    this.perLight = hours[at + HOUR.perPhotocurrent]!;
    this.cellThermal_V = hours[at + HOUR.cellThermal_V]!;
    this.cellSaturation_A = hours[at + HOUR.cellSaturation_A]!;
    this.lnCellSaturation = hours[at + HOUR.lnCellSaturation]!;
    this.lnLightOverDiode = hours[at + HOUR.lnLightOverDiode]!;
    this.shift = hours[at + HOUR.shift]!;
  }

  /** Whether the cell can push current into a terminal voltage; else the blocked diode alone is left. */
  reaches(terminal_V: number): boolean {
    return terminal_V < this.highest_V;
  }

  /**
   * Sets the current through the blocked diode at target_V, and its slope. The cell behind it stands at highest_V, the
   * dark one at 0 V.
   */
  block(): void {
    const { reverse_A, diodeLeak_S } = this;
    const over_V = this.target_V - this.highest_V;
    const folds = over_V * this.perDiode;
    const left = this.isSwitch || folds > 36 ? 0 : quickExp(-folds);
    this.blockedSlope = -(reverse_A * left * this.perDiode + diodeLeak_S);
    this.blocked_A = -(reverse_A * (1 - left) + diodeLeak_S * over_V);
  }

  /** Forgets a current that no cell gives, so that the next look begins anew: a step that is too long may find one. */
  recover(): void {
    if (this.in_A >= -this.reverse_A && this.in_A <= this.photocurrent_A && this.junction_V < Infinity)
      return;
    this.in_A = 0;
    this.junction_V = 0;
  }

  /** Sets at_V, in_A, junction_V and the derivatives to a point near target_V. */
  look(): void {
    if (this.isSwitch) this.lookThroughSwitch();
    else this.lookThroughDiode();
  }

  private lookThroughDiode(): void {
    const { target_V, photocurrent_A: light_A, perLight, ratio, shunt_S: G, diodeLeak_S: leak_S, ohm } = this;
    const { cellThermal_V: a, diodeThermal_V: b, reverse_A, highest_V, near_V } = this;
    let guess_A = Math.min(this.in_A, 0.999 * light_A);
    let junction = this.junction_V;
    let u = target_V + junction + ohm * guess_A;
    for (let looks = 1; ; looks++) {
      u = Math.min(Math.max(u, 0), highest_V);
      // Both junctions share the light and the saturation currents, less what shunt and leak take.
      let spare = (reverse_A + this.cellSaturation_A - G * u - leak_S * junction) * perLight;
      if (spare < -0.9999) spare = -0.9999;
      const lnSpare = lnOneAnd(spare);
      const shared_A = light_A * (1 + spare);
      const reduced = (target_V + ohm * guess_A) * this.perDiode + (1 - ratio) * lnSpare + this.shift;
      this.readPass(reduced);
      const { share, lnShare } = this;
      const J = shared_A * share;
      let M = shared_A - J;
      if (M < 1e-9 * shared_A) M = 1e-9 * shared_A;
      junction = b * (this.lnLightOverDiode + lnSpare + lnShare);
      const current = J - reverse_A + leak_S * junction;
      const m = M + a * G;
      const j = J + b * leak_S;
      // dV/dI = -D / (m j), D = a j + m (b + R j).
      const D = a * j + m * (b + ohm * j);
      const perD = 1 / D;
      // The shunt took what belongs to the junction voltage guessed; what it missed is a small source in the cell.
      const at_V = target_V + ohm * (guess_A - current);
      const missed_A = -G * (at_V + ohm * current + junction - u);
      const shifted_A = missed_A * a * j * perD;
      const off_V = at_V - target_V;
      const most_A = SHIFTED_SHARE * J;
      if (
        (off_V < near_V && off_V > -near_V && shifted_A < most_A && shifted_A > -most_A) ||
        looks >= MOST_LOOKS
      ) {
        this.at_V = at_V;
        this.in_A = current + shifted_A;
        const perMJ = 1 / (m * j);
        this.junction_V = junction + b * m * perMJ * shifted_A;
        const m3 = m * m * m;
        const j3 = j * j * j;
        const bent = a * M * j3 - b * J * m3;
        const perD3 = perD * perD * perD;
        this.slope = -m * j * perD;
        this.second = -bent * perD3;
        this.third =
          -(a * M * (m - 3 * M) * j3 * j * j + b * J * (j - 3 * J) * m3 * m * m + 3 * bent * bent * perD) *
          perMJ *
          perD3 *
          perD;
        return;
      }
      const next_A = current + shifted_A + off_V * m * j * perD;
      junction += (b * (next_A - current)) / j;
      guess_A = next_A > light_A ? light_A : Math.max(next_A, -reverse_A);
      u = target_V + junction + ohm * guess_A;
    }
  }

  /** Sets the share of the light current that passes the diode at a reduced voltage, and its logarithm. */
  private readPass(reduced: number): void {
    const { rows, low, last } = this.pass;
    const place = (reduced - low) * PASS_ROWS_PER_UNIT;
    if (place >= last) {
      this.lnShare = -reduced;
      this.share = quickExp(-reduced);
    } else if (place > 0) {
      const row = place | 0;
      const t = place - row;
      const i = row * 8;
      const t2 = t * t;
      this.share = rows[i]! + t * rows[i + 1]! + t2 * (rows[i + 2]! + t * rows[i + 3]!);
      this.lnShare = rows[i + 4]! + t * rows[i + 5]! + t2 * (rows[i + 6]! + t * rows[i + 7]!);
    } else {
      this.lnShare = 0;
      this.share = 1;
    }
  }

  private lookThroughSwitch(): void {
    const { target_V, near_V, photocurrent_A: light_A, shunt_S: G, cellThermal_V: a } = this;
    const { cellSaturation_A: sat_A } = this;
    const ohm = this.ohm + this.onOhm;
    let u = target_V + ohm * Math.min(this.in_A, light_A);
    if (u > this.highest_V) u = this.highest_V;
    for (let looks = 1; ; looks++) {
      const M = sat_A * quickExp(u / a);
      const current = light_A + sat_A - M - G * u;
      const m = M / a + G;
      const at_V = u - ohm * current;
      const off_V = at_V - target_V;
      const perU = 1 / (1 + ohm * m);
      if ((off_V < near_V && off_V > -near_V) || looks >= 3 * MOST_LOOKS) {
        const bend = M / (a * a);
        this.at_V = at_V;
        this.in_A = current;
        this.junction_V = current * this.onOhm;
        this.slope = -m * perU;
        this.second = -bend * perU * perU * perU;
        this.third = (-bend / a + 3 * ohm * bend * bend * perU) * perU * perU * perU * perU;
        return;
      }
      u -= off_V * perU;
    }
  }

  /** Sets lawCell_V, a guess before, to the voltage of the cell's junction at which it gives law_A: by the cell's own law. */
  readCellLaw(): void {
    const { law_A, photocurrent_A, cellSaturation_A, cellThermal_V: a, shunt_S, lnCellSaturation } = this;
    let u = this.lawCell_V;
    for (let round = 0; round < 8; round++) {
      const M = photocurrent_A + cellSaturation_A - law_A - shunt_S * u;
      if (!(M > 0)) return;
      const change = (a * (quickLog(M) - lnCellSaturation) - u) / (1 + (a * shunt_S) / M);
      u += change;
      // What a change leaves is its square over the thermal voltage.
      if (change < LAW_V && change > -LAW_V) break;
    }
    this.lawCell_V = u;
  }

  /** Sets lawDiode_V, a guess before, to the voltage over the diode's junction, or the switch, at law_A: by its own law. */
  readDiodeLaw(): void {
    const { law_A, diodeThermal_V: b, reverse_A, diodeLeak_S } = this;
    if (this.isSwitch) {
      this.lawDiode_V = law_A * this.onOhm;
      return;
    }
    let v = this.lawDiode_V;
    for (let round = 0; round < 3; round++) {
      const J = law_A + reverse_A - diodeLeak_S * v;
      if (!(J > 0)) return;
      const next = b * quickLog(J / reverse_A);
      const change = next - v;
      v = next;
      if (diodeLeak_S === 0 || (change < 1e-9 && change > -1e-9)) break;
    }
    this.lawDiode_V = v;
  }
}

/** ln(1 + x), by its series where that is short. */
function lnOneAnd(x: number): number {
  if (!(x < 0.1 && x > -0.1)) return +quickLog(1 + x);
  const x2 = x * x;
  return x - x2 * (0.5 - x * (1 / 3) + x2 * (0.25 - x * 0.2 + x2 * (1 / 6 - x * (1 / 7))));
}
