/**
 * A root of a continuous function between two points, in the unit of its argument; undefined where the ends do not
 * bracket one. For building parameters, not for hot loops.
 *
 * in: f, the function; low, high, the bracket
 * out: the root, to about 1e-15 of the bracket
 * @example bisect((x) => x * x - 4, 0, 10); // => 2
 */
export function bisect(f: (x: number) => number, low: number, high: number): number | undefined {
  let a = low;
  let b = high;
  let atA = f(a);
  const atB = f(b);
  if (atA === 0) return a;
  if (atB === 0) return b;
  if (!(atA * atB < 0)) return undefined;
  for (let i = 0; i < 200; i++) {
    const middle = (a + b) / 2;
    if (middle === a || middle === b) break;
    const atMiddle = f(middle);
    if (Number.isNaN(atMiddle)) return undefined;
    if (atMiddle === 0) return middle;
    if (atA * atMiddle < 0) b = middle;
    else {
      a = middle;
      atA = atMiddle;
    }
  }
  return (a + b) / 2;
}
