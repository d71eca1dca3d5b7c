import type { FoldedDays } from './foldSeries.ts';

/**
 * Some of the folded days, copied into columns of their own (units as in FoldedDays).
 *
 * in: days; which, indices of the days wanted, in rising order
 * out: folded days holding only those
 */
export function takeDays(days: FoldedDays, which: readonly number[]): FoldedDays {
  const samples: number[] = [];
  const dayFirst = new Uint32Array(which.length + 1);
  for (let d = 0; d < which.length; d++) {
    for (let i = days.dayFirst[which[d]!]!; i < days.dayFirst[which[d]! + 1]!; i++) samples.push(i);
    dayFirst[d + 1] = samples.length;
  }
  const pick = (column: Float64Array): Float64Array => Float64Array.from(samples, (i) => column[i]!);
  return {
    ...days,
    count: samples.length,
    phase_min: pick(days.phase_min),
    ghi_W_m2: pick(days.ghi_W_m2),
    logGhi: pick(days.logGhi),
    clearness: pick(days.clearness),
    clearIndex: Uint16Array.from(samples, (i) => days.clearIndex[i]!),
    follows: Uint8Array.from(samples, (i) => days.follows[i]!),
    dayFirst,
    day_ms: Float64Array.from(which, (d) => days.day_ms[d]!),
    equationOfTime_min: Float64Array.from(which, (d) => days.equationOfTime_min[d]!),
  };
}
