import { type Stretch, stretchesOf } from './stretchesOf.ts';

/**
 * Stretches in which one value stands in so many hours running and more.
 *
 * in: values, NaN missing (equals nothing); fewest_h, 3 by default
 * out: stretches in order
 */
export function equalRuns(values: Float64Array, fewest_h = 3): Stretch[] {
  return stretchesOf(values.length, (i) => i + 1 < values.length && values[i] === values[i + 1])
    .map(({ from, to }) => ({ from, to: to + 1 }))
    .filter(({ from, to }) => to - from >= fewest_h);
}
