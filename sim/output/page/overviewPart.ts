import { overWinters } from '../../statistics/overWinters.ts';
import type { Verdict } from '../../statistics/TrialStatistics.ts';
import { inSeason } from '../../statistics/winterStatistics.ts';
import type { Trial } from '../../trial/Trial.ts';
import { nightStrip } from '../figures/nightStrip.ts';
import { nameMarkup } from './nameMarkup.ts';

/** The verdict in a word, with a sign told apart by its shape. */
const SIGNS: Readonly<Record<Verdict, string>> = {
  kept: '<span class="sign" aria-hidden="true">●</span> kept',
  broken: '<span class="sign" aria-hidden="true">▲</span> broken',
  'nothing-promised': '<span class="sign" aria-hidden="true">–</span> nothing promised',
  'no-whole-winter': '<span class="sign" aria-hidden="true">?</span> no verdict',
};

/**
 * All trials at a glance, each a link to its part of the page: verdict, failed nights, the winter as a strip.
 *
 * in: trials, with their ids; latitude_deg
 * out: markup
 */
export function overviewPart(trials: readonly { id: string; trial: Trial }[], latitude_deg: number): string {
  const lamps = new Set(trials.map(({ trial }) => trial.lamp)).size;
  const cards = trials.map(({ id, trial }) => {
    const worst = overWinters(trial.statistics.winters).worst;
    const winter = worst?.winter ?? '';
    const rows = inSeason(
      winter,
      trial.nights.filter((row) => row.winter === winter),
      latitude_deg,
    );
    const counted = worst === undefined ? '' : `${worst.failedNights} of ${worst.nights} nights fail`;
    return [
      `<li><a class="card" href="#${id}" data-verdict="${trial.statistics.verdict}">`,
      `<span class="cardName">${nameMarkup(trial.lamp)} <span class="on">on</span> ${nameMarkup(trial.spot)}</span>`,
      `<span class="cardVerdict">${SIGNS[trial.statistics.verdict]}</span>`,
      nightStrip(rows),
      `<span class="cardCount">${counted}</span></a></li>`,
    ].join('');
  });
  return `<nav class="overview" aria-label="Lamps and spots"><ul data-lamps="${lamps}">${cards.join('\n')}</ul></nav>`;
}
