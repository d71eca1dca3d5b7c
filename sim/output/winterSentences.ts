import { fixed } from '../common/csvText.ts';
import type { WinterStatistics } from '../statistics/TrialStatistics.ts';
import type { Trial } from '../trial/Trial.ts';
import { SHORT_CAUSES } from '../year/NightTotals.ts';
import { CAUSE_NAMES, CAUSE_WORDS } from './causeWords.ts';
import { plural } from './plural.ts';
import { spokenDates } from './spokenDates.ts';

/**
 * What a winter came to, in sentences: how dark, the longest spell, the worst night and its cause, the closest call.
 *
 * in: winter; trial it belongs to; civil, writes an instant as civil time; withYear, whether dates name their year
 * out: sentences; none where nothing was promised
 */
export function winterSentences(
  winter: WinterStatistics,
  trial: Trial,
  civil: (ms: number) => string,
  withYear: boolean,
): string[] {
  if (winter.nights === 0) return [];
  const dates = (from: string, to = from) => spokenDates(from, to, withYear);
  if (winter.failedNights === 0)
    return Number.isNaN(winter.smallestReserve_J) ? [] : [closestCall(winter, dates)];
  const causes = SHORT_CAUSES.filter((cause) => winter.causes[cause] !== undefined)
    .map((cause) => `${CAUSE_NAMES[cause]} on ${winter.causes[cause]}`)
    .join(', ');
  const sentences = [
    `Dark for ${fixed(winter.short_h, 1)} h of the ${fixed(winter.promised_h, 0)} h promised` +
      `${causes === '' ? '' : ` (${causes})`}.`,
  ];
  const { longestSpell, darkestFortnight } = winter;
  if (longestSpell !== undefined && longestSpell.nights > 1) {
    const recovery = winter.recoveryNights;
    const recovered =
      recovery === undefined || recovery === 0
        ? ''
        : `, then ${recovery} ${plural(recovery, 'night')} to recover`;
    sentences.push(
      `Longest dark spell ${longestSpell.nights} nights, ${dates(longestSpell.from, longestSpell.to)}${recovered}.`,
    );
  }
  if (darkestFortnight !== undefined && winter.failedNights > 1) {
    const failed = `${darkestFortnight.failedNights} of 14 nights failed`;
    sentences.push(
      `Darkest fortnight ${dates(darkestFortnight.from, darkestFortnight.to)}: ${failed}, ` +
        `${fixed(darkestFortnight.short_h, 1)} h dark.`,
    );
  }
  const worst = worstNightSentence(winter, trial, civil, dates);
  return worst === '' ? sentences : [...sentences, worst];
}

function worstNightSentence(
  winter: WinterStatistics,
  trial: Trial,
  civil: (ms: number) => string,
  dates: (from: string) => string,
): string {
  const { worstNight } = winter;
  const row = trial.nights.find((n) => n.night === worstNight?.night && n.winter === winter.winter);
  if (worstNight === undefined || row === undefined) return '';
  const clock = civil(row.firstShort_ms).slice(11, 16);
  const from = clock === '' ? '' : `dark from ${clock}, `;
  return (
    `Worst night ${dates(worstNight.night)}: ${from}${fixed(worstNight.short_h, 1)} h in all; ` +
    `${CAUSE_WORDS[row.cause]}.`
  );
}

function closestCall(winter: WinterStatistics, dates: (from: string) => string): string {
  const reserve_J = winter.smallestReserve_J;
  const side = reserve_J < 0 ? 'below' : 'above';
  return (
    `Closest call: ${fixed(Math.abs(reserve_J), 0)} J ${side} the cut-off at the dawn after ` +
    `${dates(winter.smallestReserveNight)}.`
  );
}
