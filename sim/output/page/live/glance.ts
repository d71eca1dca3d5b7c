import type { JudgedTrial } from '../../../trial/Trial.ts';
import { nightStrip } from '../../figures/nightStrip.ts';
import { worstWinter } from '../../figures/worstWinter.ts';
import { dimOrOut } from '../../words.ts';
import { paragraphMarkup } from '../tableMarkup.ts';
import { VERDICT_SIGNS } from '../verdictSigns.ts';

/**
 * The outcome of a trial in one line of words, and as markup that shows its nights in a strip too.
 *
 * in: trial; latitude_deg, of the site, north positive
 */
export function glance(trial: JudgedTrial, latitude_deg: number): { words: string; markup: string } {
  const { worst, nights } = worstWinter(trial, latitude_deg);
  const verdict = VERDICT_SIGNS[trial.statistics.verdict];
  const how = worst === undefined || worst.failedNights === 0 ? '' : `, ${dimOrOut(worst)}`;
  const counted = worst === undefined ? '' : `: ${worst.failedNights} of ${worst.nights} nights failed${how}`;
  const words = `${verdict}${counted}`;
  return { words, markup: paragraphMarkup(words, 'tryVerdict') + nightStrip(nights) };
}
