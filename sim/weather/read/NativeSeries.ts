import { bisectLeft } from 'd3-array';
import type { QuantityName, StampReading } from '../recognise/DetectedFormat.ts';

/**
 * What a weather file holds, at its own step: stamps as the file claims them, values in canonical units (W/m2 as
 * mean over the step, degC, m of snow, m of rain in the step, m/s). Rows in the order of time, gaps left out.
 * Steps below ten minutes are joined to rows of ten minutes on the way in.
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
  /** 1-based line in its file of each row (of a joined one, the first). */
  line: Uint32Array;
  files: { name: string; sha256: string; rows: number }[];
  /** SHA-256 of all bytes in the order of the files, hexadecimal. */
  sha256: string;
  stamp: StampReading;
  /** Cells that said 'missing', by quantity and code. */
  missing: Partial<Record<QuantityName, Record<string, number>>>;
  /** What else was passed over or changed, in words. */
  notes: string[];
}

/**
 * The rows of a series whose stamps lie within a time.
 *
 * in: series; from_ms, to_ms, of which the last is without
 * out: the part, the series itself where all of it is meant
 */
export function partOfSeries(series: NativeSeries, from_ms: number, to_ms: number): NativeSeries {
  const { stamp_ms } = series;
  const [from, to] = [bisectLeft(stamp_ms, from_ms), bisectLeft(stamp_ms, to_ms)];
  if (from === 0 && to === stamp_ms.length) return series;
  const part = (columns: NativeSeries['columns']): NativeSeries['columns'] =>
    Object.fromEntries(Object.entries(columns).map(([name, values]) => [name, values.slice(from, to)]));
  return {
    ...series,
    stamp_ms: stamp_ms.slice(from, to),
    columns: part(series.columns),
    ...(series.seen === undefined ? {} : { seen: part(series.seen) }),
    line: series.line.slice(from, to),
  };
}

/**
 * Global irradiance as the sum of direct on the horizontal and diffuse, where the file has these two alone, W/m2.
 *
 * in: series
 * out: the series with that sum as its ghi, in place of bhi; the series itself where it has no bhi or no dhi
 * source: ISO9488
 */
export function globalOfParts(series: NativeSeries): NativeSeries {
  const { bhi, ...columns } = series.columns;
  const { dhi } = columns;
  if (bhi === undefined || dhi === undefined) return series;
  const ghi = bhi.map((value, i) => value + dhi[i]!);
  const { seen } = series;
  const both = seen?.bhi?.map((share, i) => Math.min(share, seen.dhi![i]!));
  return {
    ...series,
    columns: { ...columns, ghi },
    ...(both === undefined ? {} : { seen: { ...seen, ghi: both } }),
  };
}
