import { fixed } from '../common/csvText.ts';
import type { MonthStatistics } from '../statistics/TrialStatistics.ts';
import type { Trial } from '../trial/Trial.ts';
import { darkestMonth } from './darkestMonth.ts';
import { MONTH_NAMES } from './spokenDates.ts';

/**
 * Why a spot is what it is: light on the cell and capacitor at dusk in the darkest month, beside those of the same lamp in
 * the spot with most light.
 *
 * in: trial; trials, all of the run; southern, whether the site lies south of the equator
 * out: a sentence; '' where no month is known
 */
export function lightSentence(trial: Trial, trials: readonly Trial[], southern: boolean): string {
  const month = darkestMonth(trial, southern);
  if (month === undefined) return '';
  const name = MONTH_NAMES[Number(month.month.slice(5, 7)) - 1]!;
  const here = `In ${name} the cell gets ${wattHours(month)} Wh/m2 a day`;
  let best = month;
  let bestSpot = trial.spot;
  for (const other of trials) {
    const same = other.statistics.months.find((candidate) => candidate.month === month.month);
    if (other.lamp !== trial.lamp || same === undefined) continue;
    if (same.lightOnCell_Wh_m2_day > best.lightOnCell_Wh_m2_day) {
      best = same;
      bestSpot = other.spot;
    }
  }
  if (Number.isNaN(month.capacitorDusk_V)) return `${here}.`;
  const dusk = `the capacitor stands at ${fixed(month.capacitorDusk_V, 2)} V at dusk on average`;
  if (bestSpot === trial.spot) return `${here}, and ${dusk}.`;
  const share_percent = (100 * month.lightOnCell_Wh_m2_day) / best.lightOnCell_Wh_m2_day;
  return (
    `${here}, ${fixed(share_percent, 0)} percent of the ${wattHours(best)} on ${bestSpot}; ${dusk}, ` +
    `there at ${fixed(best.capacitorDusk_V, 2)} V.`
  );
}

function wattHours(month: MonthStatistics): string {
  return fixed(month.lightOnCell_Wh_m2_day, month.lightOnCell_Wh_m2_day < 10 ? 1 : 0);
}
