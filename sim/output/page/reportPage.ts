import type { SkyPicture } from '../../spot/skyPicture.ts';
import { benchSheet } from '../../trial/benchSheet.ts';
import { spotSurvey } from '../../trial/spotSurvey.ts';
import type { RunResult, Trial } from '../../trial/Trial.ts';
import { isolated } from '../figures/element.ts';
import { nightStrip } from '../figures/nightStrip.ts';
import { runFigures } from '../figures/runFigures.ts';
import { worstWinter } from '../figures/worstWinter.ts';
import { dimOrOut, partialWords, promiseWords } from '../words.ts';
import { benchPart } from './benchPart.ts';
import { figurePart } from './figurePart.ts';
import { groundsPart } from './groundsPart.ts';
import { hourlyPack } from './hourlyPack.ts';
import { pageShell } from './pageShell.ts';
import { spotPart } from './spotPart.ts';
import { listMarkup, nameMarkup, paragraphMarkup } from './tableMarkup.ts';
import { trialPart, VERDICTS } from './trialPart.ts';

/**
 * The page of a run: every trial with its verdict, pictures and what it rests on, in one HTML file.
 *
 * in: run; skies, the sky from the spots that have one, by name; files, names of those written beside it
 * out: HTML text
 */
export function reportPage(
  run: RunResult,
  skies: ReadonlyMap<string, SkyPicture>,
  files: readonly string[],
): string {
  const { scenario } = run;
  const figures = runFigures(run, skies);
  const ids = figures.trials.map(({ id }) => id);
  const survey = spotSurvey(scenario);
  const body = [
    '<header class="top">',
    `<p class="kind">Nights of a year, lit, dim and out</p><h1>${nameMarkup(scenario.name)}</h1>`,
    paragraphMarkup(promiseWords(scenario.promise), 'promise'),
    `${listMarkup(partialWords(run), 'flags')}${listMarkup(scenario.questions, 'flags', 'Please check')}`,
    '</header>',
    '<main>',
    overviewMarkup(figures.trials, scenario.site.latitude_deg),
    ...figures.trials.map(({ id, trial, figures: own }) => trialPart(id, trial, own, run)),
    figures.weather === undefined
      ? ''
      : `<section class="shared" aria-label="Weather">${figurePart('run', figures.weather)}</section>`,
    ...scenario.lamps.map((lamp, k) =>
      benchPart(`bench-${k + 1}`, benchSheet(lamp, scenario.spots), lamp.settled),
    ),
    ...survey.sheets.map((sheet, k) => spotPart(`survey-${k + 1}`, sheet, survey)),
    groundsPart(run, files),
    '</main>',
  ].join('\n');
  return pageShell({
    title: `${isolated(scenario.name)}: nights lit, dim and out`,
    body,
    hours: hourlyPack(run, figures.days, ids),
  });
}

/** All trials at a glance, each a link to its part of the page: verdict, failed nights, the winter as a strip. */
function overviewMarkup(trials: readonly { id: string; trial: Trial }[], latitude_deg: number): string {
  const lamps = new Set(trials.map(({ trial }) => trial.lamp)).size;
  const cards = trials.map(({ id, trial }) => {
    const { verdict } = trial.statistics;
    const { worst, nights } = worstWinter(trial, latitude_deg);
    const how = worst === undefined || worst.failedNights === 0 ? '' : `, ${dimOrOut(worst)}`;
    const counted = worst === undefined ? '' : `${worst.failedNights} of ${worst.nights} nights failed${how}`;
    const [sign = '', ...words] = VERDICTS[verdict].split(' ');
    return [
      `<li><a class="card" href="#${id}" data-verdict="${verdict}">`,
      `<span class="cardName">${nameMarkup(trial.lamp)} <span class="on">on</span> ${nameMarkup(trial.spot)}</span>`,
      `<span class="cardVerdict"><span class="sign" aria-hidden="true">${sign}</span> ${words.join(' ')}</span>`,
      nightStrip(nights),
      `<span class="cardCount">${counted}</span></a></li>`,
    ].join('');
  });
  return `<nav class="overview" aria-label="Lamps and spots"><ul data-lamps="${lamps}">${cards.join('\n')}</ul></nav>`;
}
