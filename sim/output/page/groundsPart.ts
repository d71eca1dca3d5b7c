import { basename, win32 } from 'node:path';
import type { Json, Origin } from '../../scenario/Scenario.ts';
import { markCounts } from '../../statistics/civilHours.ts';
import type { RunResult } from '../../trial/RunResult.ts';
import { escapeText } from '../figures/element.ts';
import type { Program } from '../program.ts';
import { CITED } from './figureNotes.ts';
import { tableMarkup } from './tableMarkup.ts';

/**
 * What a result rests on, so that it can be judged and repeated: scenario, weather and its quality, version,
 * assumptions, every value with where it came from, cautions, sources.
 *
 * in: run; program, what made the result; files, names of those beside the page
 * out: markup
 */
export function groundsPart(run: RunResult, program: Program, files: readonly string[]): string {
  const { scenario, weather, assumptions, cautions, trials } = run;
  const file = lastPart(scenario.file);
  const weatherFile = run.record === undefined ? undefined : lastPart(run.record.origin.file);
  const stated = scenario.weather?.section.file;
  const other =
    stated === undefined || weatherFile === undefined || lastPart(stated) === weatherFile
      ? ''
      : ` --weather ${typed(weatherFile)}`;
  const { site } = scenario;
  const marks = markCounts(trials[0]?.light.mark ?? new Uint8Array(0))
    .map(({ mark, hours }) => `${hours} ${mark}`)
    .join(', ');
  const repeat: [string, string][] = [
    ['Command', `longnight run ${typed(file)}${other}${wishes(weather.options)}`],
    ['Made by', `longnight ${program.version} on Node ${program.nodeMajor}, seed ${scenario.seed}`],
    ['Scenario', `${file}, SHA-256 ${scenario.sha256}`],
    [
      'Site',
      `latitude ${site.latitude_deg}, longitude ${site.longitude_deg}, ${site.elevation_m} m, ${site.timeZone}`,
    ],
    ['Files', `${files.join(', ')} beside this page`],
  ];
  const sky: [string, string][] = [
    ...(weatherFile === undefined
      ? []
      : [['File', `${weatherFile}, SHA-256 ${weather.sha256}`] as [string, string]]),
    ['Record', `${weather.hours} hours from ${weather.first_utc}`],
    ['Filled hours', `${weather.filled_hours}, filled or standing in`],
    ...(run.record === undefined
      ? []
      : [['Quality', `hours of irradiance by what they rest on: ${marks}`] as [string, string]]),
    ...Object.entries(weather.options),
  ];
  return [
    '<section class="grounds" id="grounds" aria-labelledby="grounds-name">',
    '<h2 id="grounds-name">What this rests on</h2>',
    '<div class="pair"><div>',
    `<h3>To repeat it</h3>${terms(repeat)}`,
    '</div><div>',
    `<h3>Weather</h3>${terms(sky)}`,
    '</div></div>',
    '<h3 id="grounds-cautions">Before you build</h3>',
    list(cautions, 'cautions'),
    '<h3 id="grounds-assumptions">What was assumed</h3>',
    assumptions.length === 0 ? '<p>Nothing: every value was stated.</p>' : list(assumptions, 'assumptions'),
    `<details class="folded"><summary>Every value, and where it came from</summary>${valueTable(scenario.origins)}</details>`,
    '<h3 id="grounds-sources">Sources</h3>',
    list(Object.values(CITED), 'sources'),
    '</section>',
  ].join('\n');
}

/** Options that moved how the weather was read, as they are typed. */
function wishes(options: Record<string, string>): string {
  const believed = /\b(sun|file)\b/.exec(options.believe ?? '')?.[1];
  return `${believed === undefined ? '' : ` --believe ${believed}`}${options['accept filled'] === undefined ? '' : ' --accept-filled'}`;
}

function lastPart(file: string): string {
  return basename(win32.basename(file));
}

/** A name as it is typed: between quotes where it has blanks or signs. */
function typed(file: string): string {
  return /^[\w./-]+$/.test(file) ? file : `"${file}"`;
}

function terms(rows: readonly (readonly [string, string])[]): string {
  return `<dl class="terms">${rows.map(([name, words]) => `<dt><bdi>${escapeText(name)}</bdi></dt><dd><bdi>${escapeText(words)}</bdi></dd>`).join('')}</dl>`;
}

function list(sentences: readonly string[], kind: string): string {
  return `<ul class="${kind}">${sentences.map((sentence) => `<li><bdi>${escapeText(sentence)}</bdi></li>`).join('\n')}</ul>`;
}

function valueTable(origins: readonly Origin[]): string {
  return tableMarkup<Origin>(
    'Every value of the scenario',
    [
      { heading: 'key', cell: ({ path }) => path.join(' › ') },
      { heading: 'value', cell: ({ value }) => valueWords(value) },
      { heading: 'from', cell: ({ from }) => from },
    ],
    origins,
  );
}

function valueWords(value: Json): string {
  return typeof value === 'string' ? value : JSON.stringify(value);
}
