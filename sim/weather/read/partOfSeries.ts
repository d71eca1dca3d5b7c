import type { NativeSeries } from './NativeSeries.ts';

/**
 * The rows of a series whose stamps lie within a time.
 *
 * in: series; from_ms, to_ms, of which the last is without
 * out: the part, the series itself where all of it is meant
 */
export function partOfSeries(series: NativeSeries, from_ms: number, to_ms: number): NativeSeries {
  const { stamp_ms } = series;
  let from = 0;
  let to = stamp_ms.length;
  while (from < to && stamp_ms[from]! < from_ms) from++;
  while (to > from && stamp_ms[to - 1]! >= to_ms) to--;
  if (from === 0 && to === stamp_ms.length) return series;
  const part = (columns: NativeSeries['columns']): NativeSeries['columns'] =>
    Object.fromEntries(Object.entries(columns).map(([name, values]) => [name, values.slice(from, to)]));
  return {
    ...series,
    stamp_ms: stamp_ms.slice(from, to),
    columns: part(series.columns),
    ...(series.seen === undefined ? {} : { seen: part(series.seen) }),
    ...(series.edges === undefined ? {} : { edges: part(series.edges) }),
    line: series.line.slice(from, to),
    file: series.file.slice(from, to),
  };
}
