import type { MonthStatistics } from '../statistics/TrialStatistics.ts';
import type { Trial } from '../trial/Trial.ts';

/**
 * The month by which spots are compared: December (June in the south); of several the one with least light on the
 * cell, and where the record holds none, the darkest month there is.
 *
 * in: trial; southern, whether the site lies south of the equator
 * out: the month's statistics; undefined where the trial has no month with light measured
 */
export function darkestMonth(trial: Trial, southern: boolean): MonthStatistics | undefined {
  const known = trial.statistics.months.filter((month) => !Number.isNaN(month.lightOnCell_Wh_m2_day));
  const solstice = known.filter((month) => month.month.endsWith(southern ? '-06' : '-12'));
  const choice = solstice.length > 0 ? solstice : known;
  return choice.reduce<MonthStatistics | undefined>(
    (least, month) =>
      least === undefined || month.lightOnCell_Wh_m2_day < least.lightOnCell_Wh_m2_day ? month : least,
    undefined,
  );
}
