import type { Scenario } from '../../scenario/Scenario.ts';
import type { SkyPicture } from '../../spot/skyPicture.ts';
import { benchSheet } from '../../trial/benchSheet.ts';
import { decisiveWords } from '../../trial/decisiveTrials.ts';
import { trialCount } from '../../trial/runAll.ts';
import { spotSurvey } from '../../trial/spotSurvey.ts';
import type { RunResult, Trial } from '../../trial/Trial.ts';
import { drawnTrials } from '../figures/drawnTrials.ts';
import { isolated } from '../figures/element.ts';
import { nightStrip } from '../figures/nightStrip.ts';
import { weatherFigure } from '../figures/runFigures.ts';
import { worstWinter } from '../figures/worstWinter.ts';
import { typicalWords } from '../oddsWords.ts';
import { dimOrOut, partialWords, promiseWords, shownWords } from '../words.ts';
import { benchPart } from './benchPart.ts';
import { figurePart } from './figurePart.ts';
import { groundsPart } from './groundsPart.ts';
import { hourlyPack } from './hourlyPack.ts';
import { oddsPart } from './oddsPart.ts';
import { pageShell } from './pageShell.ts';
import { spotPart } from './spotPart.ts';
import { listMarkup, nameMarkup, paragraphMarkup } from './tableMarkup.ts';
import { trialPart } from './trialPart.ts';
import { VERDICT_SIGNS } from './verdictSigns.ts';

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
  const shown = shownWords(run.weather.options);
  const { trials: drawn, days } = drawnTrials(run, skies);
  const sheets = sheetsFor(run, drawn);
  const survey = spotSurvey({ ...scenario, spots: sheets.spots });
  const body = [
    '<header class="top">',
    `<p class="kind">Nights of a year, lit, dim and out</p><h1>${nameMarkup(scenario.name)}</h1>`,
    paragraphMarkup(promiseWords(scenario.promise), 'promise'),
    shown === '' ? '' : paragraphMarkup(shown, 'promise'),
    `${listMarkup(partialWords(run), 'flags')}${listMarkup(scenario.questions, 'flags', 'Please check')}`,
    '</header>',
    '<main>',
    overviewMarkup(run, drawn),
    run.odds === undefined ? '' : oddsPart(run.odds, scenario.site.latitude_deg < 0),
    ...drawnWords(drawn.length, run).map((words) => paragraphMarkup(words, 'promise')),
    ...drawn.map(trialPart),
    `<section class="shared" aria-label="Weather">${figurePart('run', weatherFigure(run, days))}</section>`,
    ...sheets.lamps.map((lamp, k) =>
      benchPart(`bench-${k + 1}`, benchSheet(lamp, scenario.spots, scenario.currency), lamp.settled),
    ),
    ...survey.sheets.map((sheet, k) => spotPart(`survey-${k + 1}`, sheet, survey)),
    groundsPart(run, files),
    '</main>',
  ].join('\n');
  return pageShell({
    title: `${isolated(scenario.name)}: nights lit, dim and out`,
    body,
    hours: hourlyPack(run, drawn, days),
  });
}

/** Lamps and spots that get a sheet: all, or of a run that is not drawn whole those of the trials drawn. */
function sheetsFor(
  { scenario, trials }: RunResult,
  drawn: readonly { trial: Trial }[],
): Pick<Scenario, 'lamps' | 'spots'> {
  const { lamps, spots } = scenario;
  if (drawn.length === trials.length && trials.length === trialCount(scenario)) return { lamps, spots };
  return {
    lamps: lamps.filter(({ name }) => drawn.some(({ trial }) => trial.lamp === name)),
    spots: spots.filter(({ name }) => drawn.some(({ trial }) => trial.spot === name)),
  };
}

/** What of a larger run is drawn, and where the rest is; nothing where all is. */
function drawnWords(drawn: number, run: RunResult): string[] {
  const { trials } = run;
  if (drawn === trials.length) return [];
  return [
    `Of these ${trials.length} trials ${drawn} are drawn below, those that are links: ${decisiveWords(run)}. Of their lamps and spots alone there are sheets. Every night of all of them is in nights.csv, what each comes to in summary.json; a scenario with fewer spots or lamps draws any of them, and longnight check --bench prints the sheets of all.`,
  ];
}

/** All trials at a glance, those drawn with a link to their part of the page: verdict, failed nights, the winter as a strip. */
function overviewMarkup(
  { trials, scenario: { site } }: RunResult,
  drawn: readonly { id: string; trial: Trial }[],
): string {
  const lamps = new Set(trials.map(({ lamp }) => lamp)).size;
  const ids = new Map(drawn.map(({ id, trial }) => [trial, id]));
  const cards = trials.map((trial) => {
    const id = ids.get(trial);
    const [tag, link] = id === undefined ? ['span', ''] : ['a', ` href="#${id}"`];
    const { verdict, odds } = trial.statistics;
    const { worst, nights } = worstWinter(trial, site.latitude_deg);
    const how = worst === undefined || worst.failedNights === 0 ? '' : `, ${dimOrOut(worst)}`;
    const ofWorst = worst === undefined ? '' : `${worst.failedNights} of ${worst.nights} nights failed${how}`;
    const counted =
      odds === undefined || odds.failedNights.worst === 0
        ? ofWorst
        : `${typicalWords(odds.failedNights.typical)} in a typical winter, ${odds.failedNights.worst} in the worst of ${odds.winters}, which is drawn; kept in ${odds.kept} winters`;
    const [sign = '', ...words] = VERDICT_SIGNS[verdict].split(' ');
    return [
      `<li><${tag} class="card"${link} data-verdict="${verdict}">`,
      `<span class="cardName">${nameMarkup(trial.lamp)} <span class="on">on</span> ${nameMarkup(trial.spot)}</span>`,
      `<span class="cardVerdict"><span class="sign" aria-hidden="true">${sign}</span> ${words.join(' ')}</span>`,
      nightStrip(nights),
      `<span class="cardCount">${counted}</span></${tag}></li>`,
    ].join('');
  });
  return `<nav class="overview" aria-label="Lamps and spots"><ul data-lamps="${lamps}">${cards.join('\n')}</ul></nav>`;
}
