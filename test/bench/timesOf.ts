/** Milliseconds of a call over many rounds. The least is nearest to a machine that does nothing else. */
export interface Times {
  median: number;
  least: number;
}

/** How long a call takes, after warm-up rounds that are not counted. */
export function timesOf(call: () => unknown, rounds: number, warmUp: number): Times {
  for (let i = 0; i < warmUp; i++) call();
  const times = Array.from({ length: rounds }, () => {
    const from = performance.now();
    call();
    return performance.now() - from;
  }).sort((a, b) => a - b);
  return { median: (times[(rounds - 1) >> 1]! + times[rounds >> 1]!) / 2, least: times[0]! };
}
