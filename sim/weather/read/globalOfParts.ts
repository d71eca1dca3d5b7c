import type { NativeSeries } from './NativeSeries.ts';

/**
 * Global irradiance as the sum of direct on the horizontal and diffuse, where the file has these two alone, W/m2.
 *
 * in: series
 * out: the series with that sum as its ghi, in place of bhi; the series itself where it has no bhi or no dhi
 * source: ISO9488
 */
export function globalOfParts(series: NativeSeries): NativeSeries {
  const { bhi: _, ...columns } = series.columns;
  const sum = (
    parts: NativeSeries['columns'] | undefined,
    join: (a: number, b: number) => number,
  ): Float64Array | undefined => {
    const { bhi, dhi } = parts ?? {};
    return bhi === undefined || dhi === undefined ? undefined : bhi.map((value, i) => join(value, dhi[i]!));
  };
  const add = (a: number, b: number): number => a + b;
  const ghi = sum(series.columns, add);
  if (ghi === undefined) return series;
  const seen = sum(series.seen, Math.min);
  const edges = sum(series.edges, add);
  return {
    ...series,
    columns: { ...columns, ghi },
    ...(seen === undefined ? {} : { seen: { ...series.seen, ghi: seen } }),
    ...(edges === undefined ? {} : { edges: { ...series.edges, ghi: edges } }),
  };
}
