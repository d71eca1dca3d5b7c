import { square } from '../common/numeric.ts';
import type { LampStepper } from './LampStepper.ts';

/** Half the distance between Gauss's two points, as a share of the interval. */
const GAUSS = 0.5 / Math.sqrt(3);

/** What the cell gave in a step, and what of it went into diode and series resistances, each by its own law, joules. */
export class CellEnergy {
  // What a step took, set by the caller: all that came in, of it what moved the main branch, what was drained, and what
  // delayed branches took.
  in_C = 0;
  moved_C = 0;
  drained_C = 0;
  delayed_C = 0;
  delayed_J = 0;

  cell_J = 0;
  diode_J = 0;
  resistance_J = 0;
  /** Current and voltage of the cell at two points of the step. */
  early_A = 0;
  earlyCell_V = 0;
  late_A = 0;
  lateCell_V = 0;

  private readonly lamp: LampStepper;
  /** Series resistances. */
  private readonly cellOhm: number;
  private readonly diodeOhm: number;
  private cellAt_V = 0;
  private diodeAt_V = 0;

  constructor(lamp: LampStepper) {
    this.lamp = lamp;
    this.cellOhm = lamp.lamp.cell.series_ohm;
    this.diodeOhm = lamp.lamp.diode.series_ohm;
  }

  /** The cell charges the capacitor: what moves the main branch is weighed along its charge, by Gauss's two points. */
  whileCharging(): void {
    const { lamp, in_C, moved_C, drained_C, delayed_C, delayed_J } = this;
    const { ohm } = lamp;
    const { c0, c1, main_V, rise_V, mean_V, middleLoad_A } = lamp;
    const half_V = main_V + 0.5 * rise_V;
    const early_V = half_V - GAUSS * rise_V;
    const late_V = half_V + GAUSS * rise_V;
    const early_A = lamp.currentAt_A(early_V);
    this.chainAt(early_A, early_V);
    const { cellAt_V: earlyCell_V, diodeAt_V: earlyDiode_V } = this;
    const late_A = lamp.currentAt_A(late_V);
    this.chainAt(late_A, late_V);
    const { cellAt_V: lateCell_V, diodeAt_V: lateDiode_V } = this;
    this.early_A = early_A;
    this.earlyCell_V = earlyCell_V;
    this.late_A = late_A;
    this.lateCell_V = lateCell_V;
    const part = rise_V === 0 ? 0.5 : (mean_V - early_V) / (late_V - early_V);
    const meanCell_V = earlyCell_V + part * (lateCell_V - earlyCell_V);
    const meanDiode_V = earlyDiode_V + part * (lateDiode_V - earlyDiode_V);
    const mean_A = early_A + part * (late_A - early_A);
    const early_C = 0.5 * (c0 + c1 * early_V) * rise_V;
    const late_C = 0.5 * (c0 + c1 * late_V) * rise_V;
    const drain_C = in_C - moved_C;
    this.cell_J =
      early_C * earlyCell_V + late_C * lateCell_V + drain_C * meanCell_V + delayed_J - delayed_C * mean_V;
    this.diode_J = early_C * earlyDiode_V + late_C * lateDiode_V + drain_C * meanDiode_V;
    this.resistance_J =
      ohm *
      (early_C * (early_A - middleLoad_A) +
        late_C * (late_A - middleLoad_A) +
        drained_C * (mean_A - middleLoad_A));
  }

  /** Where most of what comes in goes on to the driver, all is weighed along time, by Simpson's rule; sets in_C. */
  whileLit(): void {
    const { lamp } = this;
    const { ohm } = lamp;
    const nodes = [
      { weight: 1, main_V: lamp.main_V, load_A: lamp.startLoad_A },
      { weight: 4, main_V: lamp.middle_V, load_A: lamp.middleLoad_A },
      { weight: 1, main_V: lamp.end_V, load_A: lamp.endLoad_A },
    ];
    this.in_C = 0;
    this.cell_J = 0;
    this.diode_J = 0;
    this.resistance_J = 0;
    for (const { weight, main_V, load_A } of nodes) {
      const weight_s = (weight * lamp.step_s) / 6;
      const in_A = lamp.currentAt_A(main_V);
      this.chainAt(in_A, main_V);
      this.in_C += weight_s * in_A;
      this.cell_J += weight_s * in_A * this.cellAt_V;
      this.diode_J += weight_s * in_A * this.diodeAt_V;
      this.resistance_J += weight_s * ohm * square(in_A - load_A);
      this.early_A = this.late_A;
      this.earlyCell_V = this.lateCell_V;
      this.late_A = in_A;
      this.lateCell_V = this.cellAt_V;
    }
  }

  /** What flows back through a blocked diode, and the series resistance between capacitor and driver. */
  whileBlocked(): void {
    const { lamp, in_C, moved_C, drained_C } = this;
    const { ohm } = lamp;
    const { startLoad_A, middleLoad_A, endLoad_A, curve } = lamp;
    const terminal_V = lamp.middle_V - ohm * middleLoad_A;
    this.early_A = 0;
    this.late_A = 0;
    this.earlyCell_V = curve.highest_V;
    this.lateCell_V = curve.highest_V;
    this.cell_J = in_C * curve.highest_V;
    this.diode_J = -in_C * (terminal_V - curve.highest_V);
    this.resistance_J = lamp.lit
      ? (ohm * lamp.step_s * (square(startLoad_A) + 4 * square(middleLoad_A) + square(endLoad_A))) / 6
      : -ohm * (moved_C + drained_C) * middleLoad_A;
  }

  /** Sets the voltage of the cell's terminals and of diode with resistance at a current, each by its own law. */
  private chainAt(current_A: number, main_V: number): void {
    const { lamp } = this;
    const { ohm, curve } = lamp;
    curve.law_A = current_A;
    curve.lawDiode_V = curve.junction_V;
    curve.readDiodeLaw();
    this.diodeAt_V = curve.lawDiode_V + this.diodeOhm * current_A;
    const drop_V = this.cellOhm * current_A;
    curve.lawCell_V = main_V + ohm * (current_A - lamp.middleLoad_A) + this.diodeAt_V + drop_V;
    curve.readCellLaw();
    this.cellAt_V = curve.lawCell_V - drop_V;
  }
}
