import type { LifeSweep, ScenarioLives, TrialLife } from '../../ageing/ScenarioLives.ts';
import { CAUTIONS } from '../../trial/cautions.ts';
import { BAND_WORDS } from '../bandWords.ts';
import { isolated } from '../figures/element.ts';
import { type LifeFigures, lifeFigures } from '../figures/lifeFigures.ts';
import type { LivesOf } from '../lifeJson.ts';
import {
  breakWords,
  cheapSentence,
  endSentence,
  extrapolationSentences,
  factHeading,
  factSentences,
  lifeState,
  lightSentence,
  renewalSentences,
  sealSentence,
  unpricedSentence,
} from '../lifeSentences.ts';
import { someWinters, winterColumns } from '../lifeTables.ts';
import { program } from '../program.ts';
import { SWEPT, sweepColumns, sweepSentences } from '../sweepWords.ts';
import type { TextColumn } from '../textTable.ts';
import { partialWords, promiseWords } from '../words.ts';
import { LIFE_CITED } from './figureNotes.ts';
import { figurePart } from './figurePart.ts';
import { jarCardPart } from './jarCard.ts';
import { pageHead } from './pageHead.ts';
import { pageShell } from './pageShell.ts';
import {
  listMarkup,
  type MarkupColumn,
  nameMarkup,
  paragraphMarkup,
  tableMarkup,
  termsMarkup,
} from './tableMarkup.ts';

/**
 * The page of the lives of a scenario's lamps: of each in which winter its promise first breaks, what ends it, pictures,
 * and the card for its jar; then what was swept, and what all rests on.
 *
 * in: parts; files, names of those written beside it
 * out: HTML text
 */
export function lifePage(parts: LivesOf, files: readonly string[]): string {
  const { lives, sweeps, scenario, cards = [] } = parts;
  const figures = lifeFigures(lives, sweeps, scenario);
  const years = lives.years === 1 ? 'One winter' : `${lives.years} winters`;
  const body = [
    pageHead(
      `${years} of a lamp`,
      [scenario.name],
      [promiseWords(scenario.promise), `Weather of each winter: ${lives.weather}.`, BAND_WORDS],
      [listMarkup([...partialWords(lives), ...lives.flags], 'flags', 'Please note')],
    ),
    '<main>',
    ...drawnWords(lives, figures).map((words) => paragraphMarkup(words, 'promise')),
    ...lives.trials.map((trial, k) => trialMarkup(trial, lives, `life-${k + 1}`, figures)),
    ...cards.map((card, k) => jarCardPart(`card-${k + 1}`, card)),
    ...sweeps.map((sweep, k) => sweepMarkup(sweep, `sweep-${k + 1}`, figures)),
    groundsMarkup(parts, files),
    '</main>',
  ].join('\n');
  return pageShell({ title: `${isolated(scenario.name)}: ${years}`, body });
}

function trialMarkup(trial: TrialLife, lives: ScenarioLives, id: string, figures: LifeFigures): string {
  const sentences = [
    [endSentence(trial), ...renewalSentences(trial, lives)],
    [lightSentence(trial, lives), cheapSentence(trial, lives), sealSentence(trial)],
  ];
  const name = `${nameMarkup(trial.lamp)} on ${nameMarkup(trial.spot)}`;
  return [
    `<section class="trial life" id="${id}" data-verdict="${lifeState(trial)}" aria-labelledby="${id}-name">`,
    '<div>',
    `<h2 id="${id}-name">${name}<span class="verdict">${breakWords(trial, lives.years)}</span></h2>`,
    ...sentences.map((said) => paragraphMarkup(said.filter((words) => words !== '').join(' '), 'why')),
    listMarkup(extrapolationSentences(trial), 'flags', 'Please note'),
    tableMarkup(
      `Some winters of ${isolated(trial.lamp)} on ${isolated(trial.spot)}`,
      columns(winterColumns(lives.winters > 1)),
      someWinters(trial),
    ),
    '</div>',
    '<div>',
    ...(figures.trials.get(trial) ?? []).map((figure) => figurePart(id, figure)),
    '</div>',
    '</section>',
  ].join('\n');
}

/** Of which trials there are pictures; nothing where it is all. */
function drawnWords({ trials }: ScenarioLives, { trials: drawn }: LifeFigures): string[] {
  return drawn.size === trials.length
    ? []
    : [`Of these ${trials.length} trials the first ${drawn.size} are drawn; life.csv has all of them.`];
}

function sweepMarkup(sweep: LifeSweep, id: string, figures: LifeFigures): string {
  const { what, lamp, spot, variants } = sweep;
  const heading = `${nameMarkup(lamp)} on ${nameMarkup(spot)}<span class="verdict">, by ${SWEPT[what]}</span>`;
  const figure = figures.sweeps.get(sweep);
  return [
    `<section class="shared" id="${id}" aria-labelledby="${id}-name">`,
    `<h2 id="${id}-name">${heading}</h2>`,
    // The picture says the same.
    ...(figure === undefined ? sweepSentences(sweep) : []).map((words) => paragraphMarkup(words, 'why')),
    tableMarkup(
      `${isolated(lamp)} on ${isolated(spot)} by ${SWEPT[what]}`,
      columns(sweepColumns(sweep)),
      variants,
    ),
    figurePart(id, figure),
    '</section>',
  ].join('\n');
}

/** Columns of the terminal as those of a table of the page. */
function columns<Row>(of: readonly TextColumn<Row>[]): MarkupColumn<Row>[] {
  return of.map(({ heading, cell }, k) => ({
    heading: heading.filter((words) => words !== '').join(' '),
    cell,
    number: k > 0,
  }));
}

function groundsMarkup({ lives, scenario }: LivesOf, files: readonly string[]): string {
  const { version, nodeMajor } = program();
  const { site, sha256, seed } = scenario;
  const [first] = lives.trials;
  return [
    '<section class="grounds" id="grounds"><h2>Sources and assumptions</h2>',
    termsMarkup([
      ['Made by', `longnight ${version} on Node ${nodeMajor}, seed ${seed}`],
      ['Scenario', `SHA-256 ${sha256}`],
      ['Site', `latitude ${site.latitude_deg}, longitude ${site.longitude_deg}, ${site.timeZone}`],
      ['Files', `${files.join(', ')} beside this page`],
    ]),
    '<h3 id="grounds-assumptions">What was assumed</h3>',
    listMarkup(
      [...lives.assumptions, unpricedSentence(lives.trials)].filter((words) => words !== ''),
      'assumptions',
    ) || '<p>Nothing: every value was stated.</p>',
    first === undefined
      ? ''
      : `<h3>Facts of the trade</h3>${paragraphMarkup(factHeading(first))}${listMarkup(factSentences(first), 'sources')}`,
    `<h3 id="grounds-sources">Sources</h3>${listMarkup(Object.values(LIFE_CITED), 'sources')}`,
    `<h3>Before you build</h3>${listMarkup(CAUTIONS, 'cautions')}`,
    '</section>',
  ].join('\n');
}
