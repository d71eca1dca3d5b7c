import type { LampStepper } from './LampStepper.ts';
import type { NightRecorder } from './NightRecorder.ts';
import type { Sum } from './RepeatedCycle.ts';
import { HOUR_TIMES, type TimeColumns } from './YearColumns.ts';

/** Adds every accepted step of a pass to the times of its hour. */
export class HourTimes {
  private readonly columns: TimeColumns;
  private hour = 0;

  /** in: columns, which it adds to */
  constructor(columns: TimeColumns) {
    this.columns = columns;
  }

  beginHour(hour: number): void {
    this.hour = hour;
  }

  /** What the steps of this hour are added to. */
  sums(): Sum[] {
    return HOUR_TIMES.map((name) => ({ column: this.columns[name], at: this.hour }));
  }

  /** Adds the tried step, as the nights have noted it. */
  take({ ready, step_s }: LampStepper, recorder: NightRecorder): void {
    const { columns, hour } = this;
    if (ready) columns.shining_s[hour]! += step_s;
    if (recorder.light_lm_s !== 0) columns.light_lm_h[hour]! += recorder.light_lm_s / 3600;
    if (recorder.aboveRated_s !== 0) columns.aboveRated_s[hour]! += recorder.aboveRated_s;
    if (recorder.promised) {
      const { lit_s, dim_s, out_s } = recorder;
      columns.promised_s[hour]! += lit_s + dim_s + out_s;
      columns.lit_s[hour]! += lit_s;
      columns.short_s[hour]! += dim_s + out_s;
      columns.dim_s[hour]! += dim_s;
      columns.out_s[hour]! += out_s;
    }
  }
}
