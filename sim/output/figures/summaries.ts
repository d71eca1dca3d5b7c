import { fixed } from '../../common/csvText.ts';
import type { PromiseSection } from '../../lamp/schedule/schema.ts';
import type { WinterStatistics } from '../../statistics/types.ts';
import type { Trial } from '../../trial/Trial.ts';
import { plural } from '../plural.ts';
import { spokenDates } from '../spokenDates.ts';
import { isolated } from './isolated.ts';

const J_PER_WH = 3600;

/**
 * What each picture of a trial says, in words, for whoever cannot see it.
 *
 * in: trial; worst, the winter shown (undefined where there is none); promise
 * out: a sentence or two for each picture, from the statistics
 */
export function summaries(
  trial: Trial,
  worst: WinterStatistics | undefined,
  promise: PromiseSection,
): Record<'nights' | 'changes' | 'capacitor' | 'fortnight' | 'brightness' | 'energy' | 'sky', string> {
  const { energy } = trial.statistics;
  const wh = (joule: number) => `${fixed(joule / J_PER_WH, 1)} Wh`;
  const best = trial.changes[0];
  const fortnight = worst?.darkestFortnight;
  return {
    nights: nightsSummary(worst, trial.statistics.winters.length > 1),
    changes:
      best === undefined
        ? ''
        : `${trial.changes.length} single changes, each computed by running the whole record again. Fewest nights fail with ${isolated(best.change)} (${isolated(best.detail)}): ${best.failedNights} of the ${best.failedNightsBefore} now.`,
    capacitor: `Daily band of the capacitor's voltage over the winter shown, with the highest reachable voltage of each day, the cut-off and the rated voltage.${
      fortnight === undefined || Number.isNaN(fortnight.lowestCapacitor_V)
        ? ''
        : ` In the darkest fortnight it falls to ${fixed(fortnight.lowestCapacitor_V, 2)} V.`
    }`,
    fortnight:
      fortnight === undefined
        ? ''
        : `${spokenDates(fortnight.from, fortnight.to)}, hour by hour: ${fixed(fortnight.short_h, 1)} h dark, ${fortnight.failedNights} of 14 nights failed, ${fixed(fortnight.lightOnCell_Wh_m2, 0)} Wh/m2 on the cell in all.`,
    brightness: `Mean hours a night, month by month: at or above the promised ${promise.least_lumen} lm, above half, and above a fifth of the light at switching on.`,
    energy: `Over the whole record the cell could have given ${wh(energy.cellBest_J)} at its best point. Unharvested: ${wh(energy.unharvestedCapacitorLow_J)} with the capacitor low, ${wh(energy.unharvestedCapacitorHigh_J)} with it high. It gave ${wh(energy.cell_J)}: ${wh(energy.led_J)} to the LED, ${wh(energy.driverLoss_J)} lost in the driver, ${wh(energy.diodeLoss_J)} in the blocking diode, ${wh(energy.leakage_J)} to leakage, ${wh(energy.delayedBranchLoss_J)} in the delayed branch.`,
    sky: 'The sky as seen from the spot, bearing across and elevation up: what is hidden, the way of the sun on the 21st of June, March and December, and hours of sun a day by month, above the horizon and in sight.',
  };
}

function nightsSummary(worst: WinterStatistics | undefined, withYear: boolean): string {
  if (worst === undefined || worst.nights === 0) return 'No night in which anything is promised.';
  const { nights, failedNights, short_h, promised_h, longestSpell, worstNight } = worst;
  const begin = `${withYear ? `Of the winters the worst, ${worst.winter}: ` : ''}${nights} nights with a promise: ${failedNights} failed, ${fixed(short_h, 1)} h dark of ${fixed(promised_h, 0)} h promised.`;
  if (failedNights === 0) return begin;
  const spell =
    longestSpell === undefined
      ? ''
      : ` Longest dark spell ${longestSpell.nights} ${plural(longestSpell.nights, 'night')}, ${spokenDates(longestSpell.from, longestSpell.to, withYear)}.`;
  const night =
    worstNight === undefined
      ? ''
      : ` Worst night ${spokenDates(worstNight.night, worstNight.night, withYear)}, ${fixed(worstNight.short_h, 1)} h dark.`;
  return `${begin}${spell}${night}`;
}
