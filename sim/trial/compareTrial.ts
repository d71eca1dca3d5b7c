import { max } from 'd3-array';
import { compensatedSum } from '../common/numeric.ts';
import type { LampParams } from '../lamp/params.ts';
import { monthStatistics } from '../statistics/monthStatistics.ts';
import type { Fortnight, MonthStatistics, Spell, WinterStatistics } from '../statistics/types.ts';
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
  const { verdict, winters: all } = trial.statistics;
  const whole = all.filter((winter) => winter.complete);
  const winters = whole.length > 0 ? whole : all;
  const sum = (of: (winter: WinterStatistics) => number) => compensatedSum(winters.map(of));
  const closest = winters
    .filter((winter) => !Number.isNaN(winter.smallestReserve_J))
    .reduce<WinterStatistics | undefined>(
      (least, winter) =>
        least === undefined || winter.smallestReserve_J < least.smallestReserve_J ? winter : least,
      undefined,
    );
  const names = new Set(winters.map((winter) => winter.winter));
  const ofWinters = monthStatistics(trial.nights.filter((night) => names.has(night.winter)));
  const claim = chargeClaim(lamp, trial.nights, southern);
  return {
    scenario,
    spot: trial.spot,
    lamp: trial.lamp,
    verdict,
    winters: whole.length,
    nights: sum((winter) => winter.nights),
    failedNights: sum((winter) => winter.failedNights),
    promised_h: sum((winter) => winter.promised_h),
    short_h: sum((winter) => winter.short_h),
    longestSpell: greatest<Spell>(
      winters.map((winter) => winter.longestSpell),
      (spell) => spell.nights,
    ),
    darkestFortnight: greatest<Fortnight>(
      winters.map((winter) => winter.darkestFortnight),
      (fortnight) => fortnight.short_h,
    ),
    smallestReserve_J: closest?.smallestReserve_J ?? Number.NaN,
    smallestReserveNight: closest?.smallestReserveNight ?? '',
    lightGiven_lm_h: sum((winter) => winter.lightGiven_lm_h) / winters.length,
    months: months.map((month) => comparedMonth(ofWinters, month)),
    inSpot: lampInSpot(trial, lamp, claim, southern),
    claim,
    flags: trial.flags,
  };
}

/** The entry of the greatest value, the earliest of equals; undefined where all are. */
function greatest<Entry>(
  entries: readonly (Entry | undefined)[],
  value: (entry: Entry) => number,
): Entry | undefined {
  const there = entries.filter((entry) => entry !== undefined);
  const most = max(there, value);
  return there.find((entry) => value(entry) === most);
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
