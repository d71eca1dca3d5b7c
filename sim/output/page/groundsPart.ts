import { basename, win32 } from 'node:path';
import type { Json, Origin } from '../../scenario/Scenario.ts';
import { markCounts } from '../../statistics/civilHours.ts';
import type { RunResult } from '../../trial/Trial.ts';
import { program } from '../program.ts';
import { plural } from '../words.ts';
import { CITED } from './figureNotes.ts';
import { foldedMarkup, listMarkup, tableMarkup, termsMarkup } from './tableMarkup.ts';

/**
 * What a result rests on, so that it can be judged and repeated: scenario, weather and its quality, version,
 * assumptions, every value with where it came from, cautions, sources.
 *
 * in: run; files, names of those beside the page
 * out: markup
 */
export function groundsPart(run: RunResult, files: readonly string[]): string {
  const { scenario, assumptions, cautions } = run;
  return [
    '<section class="grounds" id="grounds" aria-labelledby="grounds-name">',
    '<h2 id="grounds-name">Sources and assumptions</h2>',
    '<div class="pair"><div>',
    `<h3>How to repeat it</h3>${termsMarkup(repeatFacts(run, files))}`,
    '</div><div>',
    `<h3>Weather</h3>${termsMarkup(weatherFacts(run))}`,
    '</div></div>',
    '<h3 id="grounds-cautions">Before you build</h3>',
    listMarkup(cautions, 'cautions'),
    '<h3 id="grounds-assumptions">What was assumed</h3>',
    assumptions.length === 0
      ? '<p>Nothing: every value was stated.</p>'
      : foldedMarkup(
          `${assumptions.length} ${plural(assumptions.length, 'value')} assumed, not stated`,
          listMarkup(assumptions, 'assumptions'),
          true,
        ),
    foldedMarkup('Every value, and where it came from', valueTable(scenario.origins)),
    '<h3 id="grounds-sources">Sources</h3>',
    foldedMarkup('What the equations rest on', listMarkup(Object.values(CITED), 'sources'), true),
    '</section>',
  ].join('\n');
}

function repeatFacts({ scenario, weather, record }: RunResult, files: readonly string[]) {
  const { version, nodeMajor } = program();
  const { site, seed } = scenario;
  const file = lastPart(scenario.file);
  const stated = scenario.weather?.section.file;
  const read = record === undefined ? undefined : lastPart(record.origin.file);
  const other =
    stated === undefined || read === undefined || lastPart(stated) === read
      ? ''
      : ` --weather ${typed(read)}`;
  return [
    ['Command', `longnight run ${typed(file)}${other}${wishes(weather.options)}`],
    ['Made by', `longnight ${version} on Node ${nodeMajor}, seed ${seed}`],
    ['Scenario', `${file}, SHA-256 ${scenario.sha256}`],
    [
      'Site',
      `latitude ${site.latitude_deg}, longitude ${site.longitude_deg}, ${site.elevation_m} m, ${site.timeZone}`,
    ],
    ['Files', `${files.join(', ')} beside this page`],
  ] as const;
}

function weatherFacts({ weather, record, trials }: RunResult): (readonly [string, string])[] {
  const hours = [
    ['Record', `${weather.hours} hours from ${weather.first_utc}`],
    ['Filled hours', `${weather.filled_hours}, filled or standing in`],
  ] as const;
  const options = Object.entries(weather.options);
  if (record === undefined) return [...hours, ...options];
  const marks = markCounts(trials[0]?.light.mark ?? new Uint8Array(0)).map(
    ({ mark, hours }) => `${hours} ${mark}`,
  );
  return [
    ['File', `${lastPart(record.origin.file)}, SHA-256 ${weather.sha256}`],
    ...hours,
    ['Quality', `hours of light by where they come from: ${marks.join(', ')}`],
    ...options,
  ];
}

/** Options that moved how the weather was read, as they are typed. */
function wishes(options: Record<string, string>): string {
  const believed = /\b(sun|file)\b/.exec(options.believe ?? '')?.[1];
  return `${believed === undefined ? '' : ` --believe ${believed}`}${options['accept filled'] === undefined ? '' : ' --accept-filled'}${options.counted?.startsWith('the whole') ? ' --whole-record' : ''}`;
}

function lastPart(file: string): string {
  return basename(win32.basename(file));
}

/** A name as it is typed: between quotes where it has blanks or signs. */
function typed(file: string): string {
  return /^[\w./-]+$/.test(file) ? file : `"${file}"`;
}

function valueTable(origins: readonly Origin[]): string {
  const words = (value: Json) => (typeof value === 'string' ? value : JSON.stringify(value));
  return tableMarkup(
    'Every value of the scenario',
    [
      { heading: 'key', cell: ({ path }) => path.join(' › '), code: true },
      { heading: 'value', cell: ({ value }) => words(value), code: true },
      { heading: 'from', cell: ({ from }) => from },
    ],
    origins,
  );
}
