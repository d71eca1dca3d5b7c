import { fixed } from '../../common/csvText.ts';
import type { ComparedTrial, Comparison } from '../../trial/Comparison.ts';
import type { RunResult } from '../../trial/RunResult.ts';
import { compareFigures } from '../figures/compareFigures.ts';
import { escapeText, isolated } from '../figures/element.ts';
import { CLAIM, claimSentence, limitSentence } from '../limitSentence.ts';
import { program } from '../program.ts';
import { comparedName, promiseWords, spokenDates } from '../words.ts';
import { figurePart } from './figurePart.ts';
import { nameMarkup } from './nameMarkup.ts';
import { pageShell } from './pageShell.ts';
import { type MarkupColumn, tableMarkup } from './tableMarkup.ts';

const VERDICTS: Readonly<Record<ComparedTrial['verdict'], string>> = {
  kept: '● kept',
  broken: '▲ broken',
  'nothing-promised': '– nothing promised',
  'no-whole-winter': '? no verdict',
};

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
  const body = [
    '<header class="top">',
    `<p class="kind">Held against each other</p><h1>${names.map(nameMarkup).join(', ')}</h1>`,
    ...scenarios.map(({ name, promise }) =>
      paragraph('promise', `${scenarios.length > 1 ? `${isolated(name)}. ` : ''}${promiseWords(promise)}`),
    ),
    differences.length === 0 ? '' : `<ul class="flags" aria-label="Differences">${items(differences)}</ul>`,
    '</header>',
    '<main>',
    ...comparison.tables.map((table) => tablePart(comparison, table.name, table.trials)),
    nights === undefined ? '' : figurePart('compared', nights),
    figurePart('compared', light),
    limitsPart(comparison),
    ...skies.map((figure, k) => figurePart(`sky-${k + 1}`, figure)),
    groundsPart(comparison, files),
    '</main>',
  ].join('\n');
  return pageShell({
    title: `${names.map(isolated).join(', ')} held against each other`,
    body,
    hours: null,
  });
}

function paragraph(kind: string, words: string): string {
  return `<p class="${kind}">${escapeText(words)}</p>`;
}

function items(sentences: readonly string[]): string {
  return sentences.map((sentence) => `<li><bdi>${escapeText(sentence)}</bdi></li>`).join('\n');
}

function tablePart(comparison: Comparison, name: string, places: readonly number[]): string {
  const bySpot = comparison.by === 'spot';
  const caption = bySpot ? `${isolated(name)}, spot by spot` : `Lamps on ${isolated(name)}`;
  const number = (heading: string, cell: (trial: ComparedTrial) => string): MarkupColumn<ComparedTrial> => ({
    heading,
    cell,
    number: true,
  });
  const columns: MarkupColumn<ComparedTrial>[] = [
    {
      heading: bySpot ? 'spot' : 'lamp',
      cell: (trial) => comparedName(comparison, trial.scenario, bySpot ? trial.spot : trial.lamp),
    },
    { heading: 'promise', cell: ({ verdict }) => VERDICTS[verdict] },
    number('nights failed', ({ failedNights, nights }) => `${failedNights} of ${nights}`),
    number('dark, h', ({ short_h }) => fixed(short_h, 1)),
    {
      heading: 'longest spell',
      cell: ({ longestSpell: spell }) =>
        spell === undefined ? 'none' : `${spell.nights}, ${spokenDates(spell.from, spell.to)}`,
    },
    {
      heading: 'darkest fortnight',
      cell: ({ darkestFortnight: dark }) => (dark === undefined ? '' : spokenDates(dark.from, dark.to)),
    },
    number('least reserve at dawn, J', ({ smallestReserve_J }) => fixed(smallestReserve_J, 0)),
    number('light given, lm h a year', ({ lightGiven_lm_h }) => fixed(lightGiven_lm_h, 0)),
  ];
  const shown = places.map((place) => comparison.trials[place]!);
  return `<section class="trial"><h2>${bySpot ? `${nameMarkup(name)}<span class="verdict">, spot by spot</span>` : `<span class="verdict">Lamps on </span>${nameMarkup(name)}`}</h2>${tableMarkup(caption, columns, shown)}</section>`;
}

function limitsPart(comparison: Comparison): string {
  const { spots, trials, southern } = comparison;
  const parts = spots.map((spot) => {
    const lamps = trials.filter((one) => one.scenario === spot.scenario && one.spot === spot.spot);
    const claims = lamps.map((lamp) => `${isolated(lamp.lamp)}: ${claimSentence(lamp.claim, southern)}`);
    return [
      `<h3>${nameMarkup(comparedName(comparison, spot.scenario, spot.spot))}</h3>`,
      paragraph(
        'why',
        limitSentence(
          spot,
          lamps.map((lamp) => lamp.inSpot),
          southern,
        ),
      ),
      `<ul class="cautions">${items(claims)}</ul>`,
    ].join('\n');
  });
  return `<section class="grounds" id="spot-limits"><h2>What limits each spot</h2>${paragraph('promise', CLAIM)}${parts.join('\n')}</section>`;
}

function groundsPart(comparison: Comparison, files: readonly string[]): string {
  const { version, nodeMajor } = program();
  const rows = comparison.scenarios.map(
    ({ name, sha256, seed, latitude_deg, longitude_deg, timeZone, weather }) => ({
      name,
      scenario: `SHA-256 ${sha256}, seed ${seed}`,
      site: `latitude ${latitude_deg}, longitude ${longitude_deg}, ${timeZone}`,
      weather: `${weather.hours} hours from ${weather.first_utc}, ${weather.filled_hours} filled${weather.sha256 === '' ? '' : `, SHA-256 ${weather.sha256}`}`,
    }),
  );
  return [
    '<section class="grounds" id="grounds"><h2>What this rests on</h2>',
    paragraph(
      '',
      `Made by longnight ${version} on Node ${nodeMajor}; ${files.join(', ')} beside this page. The page of each run says what was assumed.`,
    ),
    ...rows.map(
      (row) =>
        `<h3>${nameMarkup(row.name)}</h3><dl class="terms">${(['scenario', 'site', 'weather'] as const).map((key) => `<dt>${key}</dt><dd>${escapeText(row[key])}</dd>`).join('')}</dl>`,
    ),
    '<h3 id="grounds-assumptions">Assumed</h3><p>Spots and lamps run under the assumptions of their scenario; its page lists them.</p>',
    `<h3>Before you build</h3><ul class="cautions">${items(comparison.cautions)}</ul></section>`,
  ].join('\n');
}
