import { toCanonical } from '../../weather/toCanonical.ts';
import type { UnitName } from '../../weather/units.ts';
import type { MeasuredLight } from './MeasuredShares.ts';
import { readLog } from './readLog.ts';

/** Readings of a light logger, as they stand in the file. */
export interface LightLog {
  /** Start of what each reading covers, UTC milliseconds, rising. Missing readings are left out. */
  time_ms: Float64Array;
  light_W_m2: Float64Array;
  /** 1-based line of each. */
  line: Uint32Array;
  /** Usual time from one reading to the next. */
  step_s: number;
}

/**
 * Readings of a light logger from a CSV file, in W/m2, at any step of up to an hour. Gaps are no fault of a log.
 *
 * in: file, name and bytes; log, its mapping
 * out: readings in the order of time
 * throws: what `readLog` throws
 */
export function readLightLog(file: { name: string; bytes: Uint8Array }, log: MeasuredLight): LightLog {
  const { stamp_ms, value, line, step_ms } = readLog(file, { ...log, missingKey: 'measured_light.missing' });
  const shift_ms = { start: 0, middle: step_ms / 2, end: step_ms }[log.stamp.marks];
  const lux = log.unit === 'lux' || log.unit === 'klux';
  const perLux = (log.unit === 'klux' ? 1000 : 1) / log.lumenPerWatt;
  return {
    time_ms: Float64Array.from(stamp_ms, (each) => each - shift_ms),
    light_W_m2: Float64Array.from(value, (each) =>
      lux ? each * perLux : toCanonical(each, log.unit as UnitName, step_ms / 1000),
    ),
    line: Uint32Array.from(line),
    step_s: step_ms / 1000,
  };
}
