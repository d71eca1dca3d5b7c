import type { DriverLaw } from '../lamp/driver/params.ts';
import { driverCurrent_A } from '../lamp/driver/step.ts';
import type { LoadColumns, LoadTable } from '../lamp/loadTable.ts';

/**
 * What the lit driver draws at a terminal voltage, with slope and bend, for the hourly loop: `at_V` sets the fields,
 * so that nothing is allocated.
 */
export class LoadDraw {
  current_A = 0;
  slope_S = 0;
  /** Second derivative of the current, A/V2. */
  bend = 0;
  /** The columns that hold: within a boost's law, or beyond it. */
  columns: LoadColumns;

  private readonly law: DriverLaw;
  private readonly table: LoadTable;
  private readonly perStep: number;
  private beyond = false;

  constructor(law: DriverLaw, table: LoadTable) {
    this.law = law;
    this.table = table;
    this.columns = table.within;
    this.perStep = 1 / table.step_V;
  }

  /** Chooses whether the driver's law holds, or the limit stated beyond a boost's law. */
  setBeyond(beyond: boolean): void {
    this.beyond = beyond;
    this.columns = beyond ? this.table.beyond : this.table.within;
  }

  /**
   * Sets current, slope and bend.
   * in: terminal_V, above 0; share of the time the LED is on
   */
  at_V(terminal_V: number, share: number): void {
    const law = this.law;
    if (law.kind === 'power') {
      this.current_A = (share * law.power_W) / terminal_V;
      this.slope_S = -this.current_A / terminal_V;
      this.bend = (-2 * this.slope_S) / terminal_V;
      return;
    }
    const output_V = law.kind === 'boost' ? this.at(this.columns.output_V, terminal_V) : 0;
    this.current_A = share * driverCurrent_A(law, terminal_V, output_V, this.beyond);
    this.slope_S = share * this.at(this.columns.slope_S, terminal_V);
    this.bend = share * this.at(this.columns.bend_A_V2, terminal_V);
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
