import { fixed } from '../../common/csvText.ts';
import type { ComparedTrial, Comparison } from '../../trial/Comparison.ts';
import { decisiveWords } from '../../trial/decisiveTrials.ts';
import type { RunResult } from '../../trial/Trial.ts';
import { compareAnswer } from '../compareAnswer.ts';
import { compareFigures } from '../figures/compareFigures.ts';
import { isolated, wordsMarkup } from '../figures/element.ts';
import { CLAIM, claimSentence, limitSentence, trialsIn } from '../limitSentence.ts';
import { moneyCells } from '../moneyWords.ts';
import { nightCount, ofHundred, surety } from '../oddsWords.ts';
import { program } from '../program.ts';
import { comparedName, promiseWords, shownWords, spokenDates } from '../words.ts';
import { figurePart } from './figurePart.ts';
import { oddsPart } from './oddsPart.ts';
import { pageHead } from './pageHead.ts';
import { pageShell } from './pageShell.ts';
import {
  listMarkup,
  type MarkupColumn,
  nameMarkup,
  numberColumn,
  paragraphMarkup,
  tableMarkup,
  termsMarkup,
} from './tableMarkup.ts';
import { VERDICT_SIGNS } from './verdictSigns.ts';

/**
 * The page of a comparison: what differs, the nights and the light side by side, what limits each spot, the sky from it.
 *
 * in: comparison; runs it was made from; files, names of those written beside it
 * out: HTML text
 */
export function comparePage(
  comparison: Comparison,
  runs: readonly RunResult[],
  files: readonly string[],
): string {
  const { scenarios, differences } = comparison;
  const { light, nights, skies } = compareFigures(comparison, runs);
  const names = scenarios.map(({ name }) => name);
  const promises = scenarios.map(
    ({ name, promise }) => `${scenarios.length > 1 ? `${isolated(name)}. ` : ''}${promiseWords(promise)}`,
  );
  const body = [
    pageHead(
      'Side by side',
      names,
      [...promises, shownWords(scenarios[0]!.weather.options)],
      [listMarkup(differences, 'flags', 'Differences')],
    ),
    '<main>',
    answerMarkup(comparison),
    ...drawnWords(comparison).map((words) => paragraphMarkup(words, 'promise')),
    figurePart('compared', nights),
    ...comparison.tables.map((table) => trialTable(comparison, table.name, table.trials)),
    figurePart('compared', light),
    limitsMarkup(comparison),
    skies.length === 0
      ? ''
      : `<div class="skies">${skies.map((figure, k) => figurePart(`sky-${k + 1}`, figure)).join('\n')}</div>`,
    ...runs.map(({ odds, scenario }, k) =>
      odds === undefined ? '' : oddsPart(odds, scenario.site.latitude_deg < 0, `odds-${k + 1}`),
    ),
    groundsMarkup(comparison, files),
    '</main>',
  ].join('\n');
  return pageShell({ title: `${names.map(isolated).join(', ')} side by side`, body });
}

/** Which keep the promise and which break it, and by how much, before all else. */
function answerMarkup(comparison: Comparison): string {
  const [first = '', ...others] = compareAnswer(comparison);
  return `<section class="grounds" id="compared-answer"><h2>${wordsMarkup(first)}</h2>${others.map((words) => paragraphMarkup(words, 'why')).join('')}</section>`;
}

/** Of which trials the nights are drawn; nothing where it is all. */
function drawnWords({ decisive, trials }: Comparison): string[] {
  if (decisive.length === trials.length) return [];
  return [`Of ${trials.length} trials the nights of ${decisive.length} are drawn: ${decisiveWords({})}.`];
}

function trialTable(comparison: Comparison, name: string, places: readonly number[]): string {
  const bySpot = comparison.by === 'spot';
  const caption = bySpot ? `${isolated(name)}, spot by spot` : `Lamps on ${isolated(name)}`;
  const heading = bySpot
    ? `${nameMarkup(name)}<span class="verdict">, spot by spot</span>`
    : `<span class="verdict">Lamps on </span>${nameMarkup(name)}`;
  const shown = places.map((place) => comparison.trials[place]!);
  const columns: MarkupColumn<ComparedTrial>[] = [
    {
      heading: bySpot ? 'spot' : 'lamp',
      cell: (trial) => isolated(comparedName(comparison, trial.scenario, bySpot ? trial.spot : trial.lamp)),
    },
    ...(shown.some(({ odds }) => odds !== undefined) ? severalWinters(RESULT_COLUMNS) : RESULT_COLUMNS),
    ...(shown.some(({ money }) => money.price !== undefined) ? moneyColumns(shown) : []),
  ];
  return `<section class="trial"><h2>${heading}</h2>${tableMarkup(caption, columns, shown)}</section>`;
}

const RESULT_COLUMNS: readonly MarkupColumn<ComparedTrial>[] = [
  { heading: 'promise', cell: ({ verdict }) => VERDICT_SIGNS[verdict] },
  numberColumn('failed nights', ({ failedNights, nights }) => `${failedNights} of ${nights}`),
  numberColumn('of them out', ({ failedOut }) => String(failedOut)),
  numberColumn('dim, h', ({ dim_h }) => fixed(dim_h, 1)),
  numberColumn('out, h', ({ out_h }) => fixed(out_h, 1)),
  {
    heading: 'most failed nights in a row',
    cell: ({ longestSpell: spell, winters }) =>
      spell === undefined ? 'none' : `${spell.nights}, ${spokenDates(spell.from, spell.to, winters > 1)}`,
  },
  {
    heading: 'darkest fortnight',
    cell: ({ darkestFortnight: dark, winters }) =>
      dark === undefined ? '' : spokenDates(dark.from, dark.to, winters > 1),
  },
  numberColumn('least energy left in the morning above cut-off, J', (trial) =>
    fixed(trial.smallestReserve_J, 0),
  ),
  numberColumn('light given, lm h a year', (trial) => fixed(trial.lightGiven_lm_h, 0)),
];

function moneyColumns(shown: readonly ComparedTrial[]): MarkupColumn<ComparedTrial>[] {
  return moneyCells(shown).map(({ heading, cell }) => numberColumn(heading, ({ money }) => cell(money)));
}

/** The columns where there are several winters: what these come to as a sample, then all of them together. */
function severalWinters([promise, failed, ...others]: typeof RESULT_COLUMNS): MarkupColumn<ComparedTrial>[] {
  return [promise!, ...ODDS_COLUMNS, { ...failed!, heading: 'failed nights of all winters' }, ...others];
}

const ODDS_COLUMNS: readonly MarkupColumn<ComparedTrial>[] = [
  numberColumn('failed nights, typical winter', ({ odds }) =>
    odds === undefined ? '' : nightCount(odds.failedNights.typical),
  ),
  numberColumn('worst winter in ten', ({ odds }) => fixed(odds?.failedNights.worstInTen ?? Number.NaN, 0)),
  numberColumn('worst winter', ({ odds }) =>
    odds === undefined ? '' : `${odds.failedNights.worst}, ${odds.worstWinter}`,
  ),
  numberColumn('winters kept', ({ odds, winters }) =>
    odds === undefined ? '' : `${odds.kept} of ${winters}`,
  ),
  numberColumn('so of a hundred', ({ odds }) =>
    odds === undefined ? '' : `${ofHundred(odds.chance)} (${surety(odds.chance)})`,
  ),
];

function limitsMarkup(comparison: Comparison): string {
  const { spots, trials, southern } = comparison;
  const parts = spots.flatMap((spot) => {
    const claims = trialsIn(spot, trials).map(
      ({ lamp, claim }) => `${isolated(lamp)}: ${claimSentence(claim, southern)}`,
    );
    return [
      `<h3>${nameMarkup(comparedName(comparison, spot.scenario, spot.spot))}</h3>`,
      paragraphMarkup(limitSentence(spot, comparison), 'why'),
      listMarkup(claims, 'cautions'),
    ];
  });
  return `<section class="grounds" id="spot-limits"><h2>What limits each spot</h2>${paragraphMarkup(CLAIM, 'promise')}${parts.join('\n')}</section>`;
}

function groundsMarkup({ scenarios, cautions }: Comparison, files: readonly string[]): string {
  const { version, nodeMajor } = program();
  const made = `Made by longnight ${version} on Node ${nodeMajor}; ${files.join(', ')} beside this page. The page of each run says what was assumed.`;
  const facts = scenarios.map(({ name, weather, ...scenario }) => {
    const digest = weather.sha256 === '' ? '' : `, SHA-256 ${weather.sha256}`;
    const terms = termsMarkup([
      ['scenario', `SHA-256 ${scenario.sha256}, seed ${scenario.seed}`],
      [
        'site',
        `latitude ${scenario.latitude_deg}, longitude ${scenario.longitude_deg}, ${scenario.timeZone}`,
      ],
      [
        'weather',
        `${weather.hours} hours from ${weather.first_utc}, ${weather.filled_hours} filled${digest}`,
      ],
    ]);
    return `<h3>${nameMarkup(name)}</h3>${terms}`;
  });
  return [
    '<section class="grounds" id="grounds"><h2>Sources and assumptions</h2>',
    paragraphMarkup(made),
    ...facts,
    '<h3 id="grounds-assumptions">Assumed</h3><p>Spots and lamps run under the assumptions of their scenario; its page lists them.</p>',
    `<h3>Before you build</h3>${listMarkup(cautions, 'cautions')}</section>`,
  ].join('\n');
}
