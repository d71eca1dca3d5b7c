import type { QuantityName, StampReading } from '../recognise/DetectedFormat.ts';

/**
 * What a weather file holds, at its own step: stamps as the file claims them, values in canonical units (W/m2 as
 * mean over the step, degC, m of snow, m of rain in the step, m/s). Rows in the order of time, gaps left out.
 * Steps below ten minutes are joined to rows of ten minutes on the way in; then `edges` lets any hour be cut from
 * them exactly.
 */
export interface NativeSeries {
  /** Claimed, UTC milliseconds, whatever they mark; of a joined row the mean stamp of a full one. */
  stamp_ms: Float64Array;
  /** Seconds a row stands for. */
  step_s: number;
  /** Commonest distance of rows in the file; 0 where they came at irregular times. */
  fileStep_s: number;
  /** NaN where missing. */
  columns: Partial<Record<QuantityName, Float64Array>>;
  /** Of joined rows: share of the row's time that was seen, per column. */
  seen?: Partial<Record<QuantityName, Float64Array>>;
  /** Of joined rows: value of the first file row in each (NaN: missing). */
  edges?: Partial<Record<QuantityName, Float64Array>>;
  /** 1-based line in its file of each row (of a joined one, the first). */
  line: Uint32Array;
  /** Which of `files` each row came from. */
  file: Uint8Array;
  files: { name: string; sha256: string; rows: number }[];
  /** SHA-256 of all bytes in the order of the files, hexadecimal. */
  sha256: string;
  stamp: StampReading;
  /** Cells that said 'missing', by quantity and code. */
  missing: Partial<Record<QuantityName, Record<string, number>>>;
  /** What else was passed over or changed, in words. */
  notes: string[];
}
