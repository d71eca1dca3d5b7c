import type { Site } from '../../sun/Site.ts';
import type { RunResult, Trial } from '../../trial/Trial.ts';
import { element, isolated, wordsMarkup } from '../figures/element.ts';
import { nightStrip } from '../figures/nightStrip.ts';
import { worstWinter } from '../figures/worstWinter.ts';
import { typicalWords } from '../oddsWords.ts';
import { dimOrOut } from '../words.ts';
import { nameMarkup } from './tableMarkup.ts';
import { VERDICT_SIGNS } from './verdictSigns.ts';

/** More trials than these stand in a grid of spots and lamps. */
const MOST_CARDS = 12;

/**
 * All trials of a run at a glance, each a link to its part of the page: verdict, failed nights, the winter as a strip;
 * '' of a single one.
 *
 * in: run; idOf, a trial's own name on the page
 * out: markup
 */
export function overview(run: RunResult, idOf: (trial: Trial) => string): string {
  const { trials, scenario } = run;
  if (trials.length < 2) return '';
  const inside =
    trials.length > MOST_CARDS ? gridMarkup(run, idOf) : cardsMarkup(trials, scenario.site, idOf);
  return `<nav class="overview" aria-label="Lamps and spots">${inside}</nav>`;
}

/** A trial's name and verdict, its worst winter's nights, and what it comes to. */
function glance(trial: Trial, { latitude_deg }: Site) {
  const { verdict, odds } = trial.statistics;
  const { worst, nights } = worstWinter(trial, latitude_deg);
  const how = worst === undefined || worst.failedNights === 0 ? '' : `, ${dimOrOut(worst)}`;
  const ofWorst = worst === undefined ? '' : `${worst.failedNights} of ${worst.nights} nights failed`;
  const [sign = '', ...words] = VERDICT_SIGNS[verdict].split(' ');
  return {
    verdict,
    sign: `<span class="sign" aria-hidden="true">${sign}</span>`,
    words: words.join(' '),
    nights,
    failed: worst?.failedNights,
    ofWorst,
    counted:
      odds === undefined || odds.failedNights.worst === 0
        ? `${ofWorst}${how}`
        : `${typicalWords(odds.failedNights.typical)} in a typical winter, ${odds.failedNights.worst} in the worst of ${odds.winters}, which is drawn; kept in ${odds.kept} winters`,
  };
}

function cardsMarkup(trials: readonly Trial[], site: Site, idOf: (trial: Trial) => string): string {
  const lamps = new Set(trials.map(({ lamp }) => lamp)).size;
  const cards = trials.map((trial) => {
    const { verdict, sign, words, nights, counted } = glance(trial, site);
    return [
      `<li><a class="card" href="#${idOf(trial)}" data-verdict="${verdict}">`,
      `<span class="cardName">${nameMarkup(trial.lamp)} <span class="on">on</span> ${nameMarkup(trial.spot)}</span>`,
      `<span class="cardVerdict">${sign} ${words}</span>`,
      nightStrip(nights, true, stripId(idOf(trial))),
      `<span class="cardCount">${counted}</span></a></li>`,
    ].join('');
  });
  return `<ul data-lamps="${lamps}">${cards.join('\n')}</ul>`;
}

/** Whichever there are more of, spots or lamps, a row each, so that the page is scrolled down rather than aside. */
function gridMarkup({ trials, scenario }: RunResult, idOf: (trial: Trial) => string): string {
  const { lamps, spots, site } = scenario;
  const [down, across] =
    lamps.length > spots.length ? (['lamp', 'spot'] as const) : (['spot', 'lamp'] as const);
  const names = { spot: spots.map(({ name }) => name), lamp: lamps.map(({ name }) => name) };
  const byNames = new Map(trials.map((trial) => [JSON.stringify([trial[down], trial[across]]), trial]));
  const cell = (trial: Trial | undefined) => {
    if (trial === undefined) return '<td></td>';
    const { verdict, sign, words, nights, failed, ofWorst } = glance(trial, site);
    const name = `${isolated(trial.lamp)} on ${isolated(trial.spot)}: ${words}, ${ofWorst}`;
    const link = {
      class: 'cell',
      href: `#${idOf(trial)}`,
      'data-verdict': verdict,
      'aria-label': name,
    };
    return `<td>${element('a', link, `${nightStrip(nights, false, stripId(idOf(trial)))}<span>${sign} ${failed ?? ''}</span>`)}</td>`;
  };
  const head = names[across].map((name) => `<th scope="col">${nameMarkup(name)}</th>`).join('');
  const rows = names[down].map((name) => {
    const cells = names[across].map((other) => cell(byNames.get(JSON.stringify([name, other]))));
    return `<tr><th scope="row">${nameMarkup(name)}</th>${cells.join('')}</tr>`;
  });
  const caption = wordsMarkup(
    `The worst winter of each ${down} with each ${across}, from its first night to its last; its failed nights`,
  );
  return `<div class="scroll grid" tabindex="0" role="region" aria-label="Every ${down} with every ${across}"><table><caption>${caption}</caption><thead><tr><td></td>${head}</tr></thead><tbody>${rows.join('\n')}</tbody></table></div>`;
}

/** The id of a trial's strip, where its part of the page shows it again. */
export function stripId(id: string): string {
  return `${id}-strip`;
}
