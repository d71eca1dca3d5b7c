/** Hours that stand together: indices from <= i < to. */
export interface Stretch {
  from: number;
  to: number;
}

/**
 * Stretches of hours for which a test holds, in order.
 *
 * in: count, hours; holds, the test of hour i
 * out: stretches, as long as they can be
 */
export function stretchesOf(count: number, holds: (i: number) => boolean): Stretch[] {
  const stretches: Stretch[] = [];
  for (let i = 0; i < count; i++) {
    if (!holds(i)) continue;
    const from = i;
    while (i < count && holds(i)) i++;
    stretches.push({ from, to: i });
  }
  return stretches;
}

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

/** Whether two stretches have an hour in common. */
export function overlap(a: Stretch, b: Stretch): boolean {
  return a.from < b.to && b.from < a.to;
}

/** Hours for which a test holds, as 1; others 0. */
export function flagsOf(count: number, holds: (i: number) => boolean): Uint8Array {
  const flags = new Uint8Array(count);
  for (let i = 0; i < count; i++) if (holds(i)) flags[i] = 1;
  return flags;
}

/** Stretches of flagged hours. */
export function stretchesFlagged(flags: Uint8Array): Stretch[] {
  return stretchesOf(flags.length, (i) => flags[i] === 1);
}
