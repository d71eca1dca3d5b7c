import { mean, sampleCorrelation, standardDeviation } from 'simple-statistics';
import { completeWinters, type LearnedClimate } from '../../sim/climate/LearnedClimate.ts';
import { drawnWinter, type WinterFrame, weatherOfDays } from '../../sim/climate/madeWinters.ts';
import type { RecordedDays } from '../../sim/climate/RecordedDays.ts';

/** Clearness of the days of one winter, 1 July to 30 June; NaN where unknown. */
export type WinterDays = Float64Array;

/** What years are like, as far as lamps feel it. */
export interface Likeness {
  /** Rank correlation of days one to five apart, in the dark half of the year. */
  autocorrelation: number[];
  /** Mean and standard deviation over winters of the mean clearness from November to January. */
  coreMean: number;
  coreDeviation: number;
  /** Mean over winters of the least mean of ten days running, November to January. */
  leastTenDays: number;
  /** Clearness of all days of each month, July first. */
  byMonth: number[][];
}

const MONTH_DAYS = [31, 31, 30, 31, 30, 31, 31, 28, 31, 30, 31, 30];
/** November to January, counted from 1 July. */
const CORE: [number, number] = [123, 215];

/** The winters of a record that its climate is learned from. */
export function recordedWinters(days: RecordedDays): WinterDays[] {
  return completeWinters(days).map((winter) => {
    const clearness = new Float64Array(365).fill(Number.NaN);
    for (let d = 0; d < days.count; d++) {
      if (days.winter[d] === winter) clearness[(days.season[d]! + 184) % 365] = days.clearness[d]!;
    }
    return clearness;
  });
}

/** Winters made of a climate, through their hours as a lamp would see them. */
export function madeWinters(climate: LearnedClimate, frame: WinterFrame, count: number): WinterDays[] {
  return Array.from({ length: count }, (_, index) => {
    const { ghi_W_m2 } = weatherOfDays(drawnWinter(climate, frame, 1, index), climate, frame);
    return Float64Array.from({ length: 365 }, (_, d) => {
      let light = 0;
      let outside = 0;
      for (let i = d * 24; i < d * 24 + 24; i++) {
        light += ghi_W_m2[i]!;
        outside += frame.outside_W_m2[i]!;
      }
      return outside > 50 ? light / outside : Number.NaN;
    });
  });
}

export function likenessOf(winters: readonly WinterDays[]): Likeness {
  const core = winters.map((days) => [...days.slice(...CORE)].filter((value) => !Number.isNaN(value)));
  return {
    autocorrelation: [1, 2, 3, 4, 5].map((lag) => autocorrelation(winters, lag)),
    coreMean: mean(core.map((days) => mean(days))),
    coreDeviation: standardDeviation(core.map((days) => mean(days))),
    leastTenDays: mean(
      core.map((days) => Math.min(...days.slice(9).map((_, k) => mean(days.slice(k, k + 10))))),
    ),
    byMonth: MONTH_DAYS.map((length, month) => {
      const from = MONTH_DAYS.slice(0, month).reduce((sum, days) => sum + days, 0);
      return winters.flatMap((days) =>
        [...days.slice(from, from + length)].filter((value) => !Number.isNaN(value)),
      );
    }),
  };
}

/** Of ranks within the month, so that the course of the season is no correlation: October to March. */
function autocorrelation(winters: readonly WinterDays[], lag: number): number {
  const left: number[] = [];
  const right: number[] = [];
  const ranked = rankedByMonth(winters);
  for (const days of ranked) {
    for (let d = 92; d + lag < 274; d++) {
      if (Number.isNaN(days[d]!) || Number.isNaN(days[d + lag]!)) continue;
      left.push(days[d]!);
      right.push(days[d + lag]!);
    }
  }
  return sampleCorrelation(left, right);
}

function rankedByMonth(winters: readonly WinterDays[]): Float64Array[] {
  const out = winters.map((days) => new Float64Array(days.length).fill(Number.NaN));
  let from = 0;
  for (const length of MONTH_DAYS) {
    const all = winters.flatMap((days, w) =>
      Array.from({ length }, (_, k) => ({ w, d: from + k, value: days[from + k]! })).filter(
        ({ value }) => !Number.isNaN(value),
      ),
    );
    all.sort((a, b) => a.value - b.value);
    all.forEach(({ w, d }, rank) => {
      out[w]![d] = (rank + 0.5) / all.length;
    });
    from += length;
  }
  return out;
}

/** Greatest distance of two samples' distributions. */
export function kolmogorovSmirnov(left: readonly number[], right: readonly number[]): number {
  const [a, b] = [left.toSorted((x, y) => x - y), right.toSorted((x, y) => x - y)];
  let most = 0;
  let j = 0;
  for (let i = 0; i < a.length; i++) {
    while (j < b.length && b[j]! <= a[i]!) j++;
    most = Math.max(most, Math.abs((i + 1) / a.length - j / b.length), Math.abs(i / a.length - j / b.length));
  }
  return most;
}
