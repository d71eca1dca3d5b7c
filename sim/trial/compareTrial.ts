import { compensatedSum } from '../common/numeric.ts';
import type { LampParams } from '../lamp/params.ts';
import { monthStatistics } from '../statistics/monthStatistics.ts';
import { overWinters } from '../statistics/overWinters.ts';
import type { MonthStatistics } from '../statistics/TrialStatistics.ts';
import type { ComparedMonth, ComparedTrial } from './Comparison.ts';
import { chargeClaim } from './chargeClaim.ts';
import { lampInSpot } from './lampInSpot.ts';
import type { Trial } from './Trial.ts';

/**
 * A trial as it is held against others: its whole winters together (its part winters where none is whole), its months,
 * and what dim light, leakage and the claim of full charge come to.
 *
 * in: trial; scenario, its name; lamp, its parameters; months, calendar months in the order wanted; southern
 */
export function compareTrial(
  trial: Trial,
  scenario: string,
  lamp: LampParams,
  months: readonly number[],
  southern: boolean,
): ComparedTrial {
  const { verdict, winters } = trial.statistics;
  const over = overWinters(winters);
  const names = new Set(over.winters.map((winter) => winter.winter));
  const ofWinters = monthStatistics(trial.nights.filter((night) => names.has(night.winter)));
  const claim = chargeClaim(lamp, trial.nights, southern);
  return {
    scenario,
    spot: trial.spot,
    lamp: trial.lamp,
    verdict,
    winters: over.whole,
    nights: over.nights,
    failedNights: over.failedNights,
    promised_h: over.promised_h,
    short_h: over.short_h,
    longestSpell: over.longestSpell,
    darkestFortnight: over.darkestFortnight,
    smallestReserve_J: over.smallestReserve_J,
    smallestReserveNight: over.smallestReserveNight,
    lightGiven_lm_h: over.lightGiven_lm_h / over.winters.length,
    months: months.map((month) => comparedMonth(ofWinters, month)),
    inSpot: lampInSpot(trial, lamp, claim, southern),
    claim,
    flags: trial.flags,
  };
}

function comparedMonth(all: readonly MonthStatistics[], month: number): ComparedMonth {
  const same = all.filter((each) => Number(each.month.slice(5, 7)) === month);
  const sum = (of: (each: MonthStatistics) => number) => compensatedSum(same.map(of));
  return {
    month,
    nights: sum((each) => each.nights),
    failedNights: sum((each) => each.failedNights),
    short_h: sum((each) => each.short_h),
    lightGiven_lm_h: sum((each) => each.lightGiven_lm_h),
  };
}
