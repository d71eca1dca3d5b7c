import { greatest, least } from 'd3-array';
import { compensatedSum } from '../common/numeric.ts';
import type { NightStatistics, Verdict, WinterStatistics, WinterTotals } from './TrialStatistics.ts';
import { winterOdds } from './WinterOdds.ts';

/** Several winters of a trial together: the whole ones, or where none is whole, the parts there are. */
export interface OverWinters extends WinterTotals {
  winters: readonly WinterStatistics[];
  /** How many of them are whole. */
  whole: number;
  /** The winter with most failed nights; ties: most short hours, then the earlier. */
  worst: WinterStatistics | undefined;
}

/**
 * What winters come to together: the only place that leaves out part winters.
 *
 * in: all, the winters of a trial, as winterStatistics gives them
 */
export function overWinters(all: readonly WinterStatistics[]): OverWinters {
  const whole = all.filter((winter) => winter.complete);
  const winters = whole.length > 0 ? whole : all;
  const sum = (of: (winter: WinterStatistics) => number) => compensatedSum(winters.map(of));
  const closest = least(winters, (winter) => winter.smallestReserve_J);
  return {
    winters,
    whole: whole.length,
    nights: sum((winter) => winter.nights),
    failedNights: sum((winter) => winter.failedNights),
    failedOut: sum((winter) => winter.failedOut),
    promised_h: sum((winter) => winter.promised_h),
    short_h: sum((winter) => winter.short_h),
    dim_h: sum((winter) => winter.dim_h),
    out_h: sum((winter) => winter.out_h),
    worst: greatest(winters, (a, b) => a.failedNights - b.failedNights || a.short_h - b.short_h),
    longestSpell: greatest(winters, (winter) => winter.longestSpell?.nights)?.longestSpell,
    darkestFortnight: greatest(winters, (winter) => winter.darkestFortnight?.short_h)?.darkestFortnight,
    smallestReserve_J: closest?.smallestReserve_J ?? Number.NaN,
    smallestReserveNight: closest?.smallestReserveNight ?? '',
    lightGiven_lm_h: sum((winter) => winter.lightGiven_lm_h),
  };
}

/** What the winters of a trial come to. */
export function nightStatistics(winters: WinterStatistics[]): NightStatistics {
  const odds = winterOdds(winters);
  return { verdict: verdictOf(winters), winters, ...(odds === undefined ? {} : { odds }) };
}

/**
 * The answer for a trial: it rests on whole winters only.
 * in: winters, as winterStatistics gives them
 */
export function verdictOf(winters: readonly WinterStatistics[]): Verdict {
  const { whole, nights, failedNights } = overWinters(winters);
  if (whole === 0) return 'no-whole-winter';
  if (nights === 0) return 'nothing-promised';
  return failedNights > 0 ? 'broken' : 'kept';
}
