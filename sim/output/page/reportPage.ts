import type { Scenario } from '../../scenario/Scenario.ts';
import type { SkyPicture } from '../../spot/skyPicture.ts';
import { benchSheet } from '../../trial/benchSheet.ts';
import { decisiveWords } from '../../trial/decisiveTrials.ts';
import type { LiveRun } from '../../trial/live/LiveRun.ts';
import { liveRunOf } from '../../trial/live/liveRunOf.ts';
import { trialKnobs } from '../../trial/live/turnedTrial.ts';
import { trialCount } from '../../trial/runAll.ts';
import { spotSurvey } from '../../trial/spotSurvey.ts';
import type { RunResult, Trial } from '../../trial/Trial.ts';
import { blockSetting } from '../BlockSetting.ts';
import { type DrawnTrial, drawnTrials, trialId } from '../figures/drawnTrials.ts';
import { isolated } from '../figures/element.ts';
import { weatherFigure } from '../figures/runFigures.ts';
import { partialWords, promiseWords, shownWords } from '../words.ts';
import { benchPart } from './benchPart.ts';
import { figurePart } from './figurePart.ts';
import { groundsPart } from './groundsPart.ts';
import { hourlyPack } from './hourlyPack.ts';
import { liveBlock } from './live/liveBlock.ts';
import { moneyPart } from './moneyPart.ts';
import { oddsPart } from './oddsPart.ts';
import { overview } from './overview.ts';
import { pageHead } from './pageHead.ts';
import { pageShell } from './pageShell.ts';
import { spotPart } from './spotPart.ts';
import { listMarkup, paragraphMarkup } from './tableMarkup.ts';
import { briefPart, trialPart } from './trialPart.ts';

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
  const again = liveRunOf(run);
  const [live, still] = 'tooLong' in again ? [undefined, again.tooLong] : [again, ''];
  const sheets = sheetsFor(run, drawn);
  const survey = spotSurvey({ ...scenario, spots: sheets.spots });
  const body = [
    pageHead(
      'Nights of a year, lit, dim and out',
      [scenario.name],
      [promiseWords(scenario.promise), shown],
      [listMarkup(partialWords(run), 'flags'), listMarkup(scenario.questions, 'flags', 'Please check')],
    ),
    '<main>',
    overview(run, (trial) => trialId(run, trial)),
    ...drawnWords(drawn.length, run).map((words) => paragraphMarkup(words, 'promise')),
    still === '' ? '' : paragraphMarkup(`Nothing can be turned here: ${still}.`, 'promise'),
    '<div class="chooser" hidden></div>',
    ...trialParts(run, drawn, live),
    `<section class="shared weather" aria-label="Weather">${figurePart('run', weatherFigure(run, days))}</section>`,
    run.odds === undefined ? '' : oddsPart(run.odds, scenario.site.latitude_deg < 0),
    moneyPart(
      run,
      drawn.map(({ trial }) => trial),
    ),
    ...sheets.lamps.map((lamp, k) =>
      benchPart(
        `bench-${k + 1}`,
        benchSheet(lamp, scenario.spots, scenario.currency),
        lamp.settled,
        idsOf(run, ({ lamp: own }) => own === lamp.name),
      ),
    ),
    ...survey.sheets.map((sheet, k) =>
      spotPart(
        `survey-${k + 1}`,
        sheet,
        survey,
        idsOf(run, ({ spot }) => spot === sheet.spot),
      ),
    ),
    groundsPart(run, files),
    '</main>',
  ].join('\n');
  return pageShell({
    title: `${isolated(scenario.name)}: nights lit, dim and out`,
    body,
    hours: hourlyPack(run, live === undefined ? drawn : [], days),
    live: live && liveBlock(live),
  });
}

/** Every trial in its place, those that are not drawn with their answer alone. */
function trialParts(run: RunResult, drawn: readonly DrawnTrial[], live: LiveRun | undefined): string[] {
  const whole = new Map<Trial, DrawnTrial>(drawn.map((each) => [each.trial, each]));
  return run.trials.map((trial) => {
    const own = whole.get(trial);
    return own === undefined
      ? briefPart(trialId(run, trial), trial, blockSetting(run, trial, [], undefined))
      : trialPart(own, live && trialKnobs(live, trial.spot, trial.lamp));
  });
}

function idsOf(run: RunResult, wanted: (trial: Trial) => boolean): string[] {
  return run.trials.filter(wanted).map((trial) => trialId(run, trial));
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
    `Of these ${trials.length} trials ${drawn} are drawn in full: ${decisiveWords(run)}. Of their lamps and spots alone there are sheets. Of the others the page holds the answer and the nights as a strip; every night of all of them is in nights.csv, what each comes to in summary.json, and longnight check --bench prints the sheets of all.`,
  ];
}
