import { overWinters } from '../statistics/overWinters.ts';
import type { HourlyTrial, Trial } from './Trial.ts';

/** A run of at most so many trials is shown whole; of a larger one no more than these are shown in full. */
export const MOST_SHOWN = 12;
/** So many from either end of those that fail, and of those that do not. */
const FROM_EITHER_END = 3;

/** Which trials of a larger run are decisive, for those who read it. */
export const DECISIVE =
  'of the trials with failed nights the three with fewest and the three with most, of the others the three with least and the three with most energy left in their worst morning';

/**
 * The trials of a run that are shown in full: all of at most 12. Of more, those that tell where the promise begins to
 * break and how far it goes either way: of the trials with failed nights the three with fewest and the three with most
 * (ties: fewest and most short hours), of the others the three with least and the three with most energy left in their
 * worst morning. A trial that is not among them never becomes one of them by more trials.
 *
 * in: trials
 * out: some of them, in their order
 */
export function decisiveTrials<Ran extends Trial>(trials: readonly Ran[]): Ran[] {
  if (trials.length <= MOST_SHOWN) return [...trials];
  const all = trials.map((trial) => ({ trial, ...overWinters(trial.statistics.winters) }));
  const failing = all
    .filter(({ failedNights }) => failedNights > 0)
    .sort((a, b) => a.failedNights - b.failedNights || a.short_h - b.short_h);
  const others = all
    .filter(({ failedNights }) => !(failedNights > 0))
    .sort((a, b) => a.smallestReserve_J - b.smallestReserve_J);
  const ends = [failing, others].flatMap((sorted) => [
    ...sorted.slice(0, FROM_EITHER_END),
    ...sorted.slice(-FROM_EITHER_END),
  ]);
  const decisive = new Set(ends.map(({ trial }) => trial));
  return trials.filter((trial) => decisive.has(trial));
}

/** Whether a trial still has its hours. */
export function hasHours(trial: Trial): trial is HourlyTrial {
  return 'columns' in trial.year;
}

/**
 * Lets the hours of all trials go that are not decisive; to be called after each of many, whose hours together would
 * not fit the memory.
 *
 * in: trials, so far
 * out: the same, in their order
 */
export function lettingHoursGo(trials: readonly Trial[]): Trial[] {
  const decisive = new Set<Trial>(decisiveTrials(trials.filter(hasHours)));
  return trials.map((trial) => {
    if (!hasHours(trial) || decisive.has(trial)) return trial;
    const { columns, ...year } = trial.year;
    return { ...trial, year };
  });
}
