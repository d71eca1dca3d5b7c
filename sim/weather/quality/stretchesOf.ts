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
