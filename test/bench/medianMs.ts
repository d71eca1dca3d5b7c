/** Median of the milliseconds of a call, after warm-up rounds that are not counted. */
export function medianMs(call: () => unknown, rounds: number, warmUp: number): number {
  for (let i = 0; i < warmUp; i++) call();
  const times = Array.from({ length: rounds }, () => {
    const from = performance.now();
    call();
    return performance.now() - from;
  }).sort((a, b) => a - b);
  return (times[(rounds - 1) >> 1]! + times[rounds >> 1]!) / 2;
}
