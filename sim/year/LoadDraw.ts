import { piecewiseLinear } from '../common/piecewiseLinear.ts';
import type { DriverLaw } from '../lamp/driver/params.ts';
import { driverCurrent_A } from '../lamp/driver/step.ts';
import type { LoadTable } from '../lamp/loadTable.ts';

/**
 * What the lit driver draws at a terminal voltage, with slope and bend, for the hourly loop: `at_V` sets the fields,
 * so that nothing is allocated.
 */
export class LoadDraw {
  current_A = 0;
  slope_S = 0;
  /** Second derivative of the current, A/V2. */
  bend = 0;

  private readonly law: DriverLaw;
  private readonly table: LoadTable;
  private readonly perStep: number;

  constructor(law: DriverLaw, table: LoadTable) {
    this.law = law;
    this.table = table;
    this.perStep = 1 / table.step_V;
  }

  /**
   * Sets current, slope and bend.
   * in: terminal_V, above 0; share of the time the LED is on; beyond, true where a boost's stated limit holds
   */
  at_V(terminal_V: number, share: number, beyond: boolean): void {
    const law = this.law;
    switch (law.kind) {
      case 'power':
        this.current_A = (share * law.power_W) / terminal_V;
        this.slope_S = -this.current_A / terminal_V;
        this.bend = (-2 * this.slope_S) / terminal_V;
        return;
      case 'boost': {
        if (beyond) {
          this.current_A = share * law.limit_A;
          this.slope_S = 0;
          this.bend = 0;
          return;
        }
        const output_V = this.at(this.table.output_V, terminal_V);
        const gap_V = output_V - terminal_V;
        this.current_A = (share * law.choke_S * terminal_V * output_V) / gap_V;
        this.slope_S = (share * law.choke_S * output_V * output_V) / (gap_V * gap_V);
        this.bend = (2 * this.slope_S) / gap_V;
        return;
      }
      case 'table': {
        const step_V = 1e-4;
        this.current_A = share * piecewiseLinear(law.store_V, law.current_A, terminal_V);
        this.slope_S =
          (share * piecewiseLinear(law.store_V, law.current_A, terminal_V + step_V) - this.current_A) /
          step_V;
        this.bend = 0;
        return;
      }
      default:
        this.current_A = share * driverCurrent_A(law, terminal_V, 0, false);
        this.slope_S = law.kind === 'conductance' ? share * law.conductance_S : 0;
        this.bend = 0;
    }
  }

  /** Value of a column of the load table at a terminal voltage; the end values beyond the table. */
  at(column: Float64Array, terminal_V: number): number {
    const place = terminal_V * this.perStep;
    const last = column.length - 1;
    if (!(place > 0)) return column[0]!;
    if (place >= last) return column[last]!;
    const low = place | 0;
    return column[low]! + (column[low + 1]! - column[low]!) * (place - low);
  }
}
