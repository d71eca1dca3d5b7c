/**
 * Where a transmittance changes between two points, in the unit of the points: the step's place where it jumps, the
 * half-way value's where it changes gradually.
 *
 * in: pass, transmittance at a point, different at the two ends; from, to, the ends; halvings, how often to narrow
 * out: a point between them, to (to - from) / 2^(halvings + 1)
 * @example edgeBetween((x) => (x < 0.25 ? 0 : 1), 0, 1, 20); // => 0.25000
 */
export function edgeBetween(
  pass: (at: number) => number,
  from: number,
  to: number,
  halvings: number,
): number {
  const before = pass(from);
  const after = pass(to);
  let low = from;
  let high = to;
  for (let i = 0; i < halvings; i++) {
    const middle = (low + high) / 2;
    const there = pass(middle);
    if (Math.abs(there - before) < Math.abs(there - after)) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
