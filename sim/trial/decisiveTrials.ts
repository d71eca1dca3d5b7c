import { overWinters } from '../statistics/overWinters.ts';
import type { HourlyTrial, RunResult, Trial } from './Trial.ts';

/** How much of a run is shown in full. */
interface Shown {
  /** A run of at most so many trials is shown whole, a larger one no further than this. */
  most: number;
  /** Of a larger one so many from either end of those that fail, and of those that do not. */
  fromEitherEnd: number;
  words: string;
}

const OF_A_RUN: Shown = { most: 12, fromEitherEnd: 2, words: 'two' };
/** Whoever interrupts a run is not kept waiting for pictures. */
const OF_A_PART: Shown = { most: 4, fromEitherEnd: 1, words: 'one' };

type Some<Ran extends Trial> = Pick<RunResult<Ran>, 'trials' | 'partial'>;

function shownOf({ partial }: Pick<RunResult, 'partial'>): Shown {
  return partial === undefined ? OF_A_RUN : OF_A_PART;
}

/** Which trials of a run that is not shown whole are shown in full, in words. */
export function decisiveWords(run: Pick<RunResult, 'partial'>): string {
  const { words } = shownOf(run);
  return `of the trials with failed nights the ${words} with fewest and the ${words} with most, of the others the ${words} with least and the ${words} with most energy left in their worst morning`;
}

/**
 * The trials of a run that are shown in full: all of at most 12. Of more, those that tell where the promise begins to
 * break and how far it goes either way: of the trials with failed nights the two with fewest and the two with most
 * (ties: fewest and most short hours), of the others the two with least and the two with most energy left in their
 * worst morning. Of a run that was interrupted: all of at most 4, else one each. A trial that is not among them never
 * becomes one of them by more trials.
 *
 * in: run
 * out: some of its trials, in their order
 */
export function decisiveTrials<Ran extends Trial>(run: Some<Ran>): Ran[] {
  const { trials } = run;
  const { most, fromEitherEnd } = shownOf(run);
  if (trials.length <= most) return [...trials];
  const all = trials.map((trial) => ({ trial, ...overWinters(trial.statistics.winters) }));
  const failing = all
    .filter(({ failedNights }) => failedNights > 0)
    .sort((a, b) => a.failedNights - b.failedNights || a.short_h - b.short_h);
  const others = all
    .filter(({ failedNights }) => !(failedNights > 0))
    .sort((a, b) => a.smallestReserve_J - b.smallestReserve_J);
  const ends = [failing, others].flatMap((sorted) => [
    ...sorted.slice(0, fromEitherEnd),
    ...sorted.slice(-fromEitherEnd),
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
  const decisive = new Set<Trial>(decisiveTrials({ trials: trials.filter(hasHours) }));
  return trials.map((trial) => {
    if (!hasHours(trial) || decisive.has(trial)) return trial;
    const { columns, nights, ...year } = trial.year;
    return { ...trial, year };
  });
}
