import { overWinters } from '../statistics/overWinters.ts';
import type { MonthStatistics, Verdict } from '../statistics/TrialStatistics.ts';
import { decisiveTrials } from '../trial/decisiveTrials.ts';
import type { RunResult, Trial } from '../trial/Trial.ts';
import { changeLines, spreadLines } from './changeLines.ts';
import { monthCell, monthColumns } from './columns.ts';
import { oddsLines } from './oddsText.ts';
import { type Paint, paint, textTable, wrapText } from './textTable.ts';
import { trialGrid } from './trialGrid.ts';
import { verdictWords } from './winterSentences.ts';
import { winterStrip } from './winterStrip.ts';
import { CAUTION_LINES, partialWords, plural, promiseWords } from './words.ts';

/**
 * The verdict of a run for people: plain sentences first, then a strip of the winter and a table by month for each
 * trial, then cautions; of a large run all trials at a glance, and its decisive ones like that. At most 100 columns;
 * reads the same without colour.
 *
 * in: run; colour, whether the terminal takes it
 * out: text, ending in a line break
 */
export function terminalRun(run: RunResult, colour: boolean): string {
  const { scenario, trials } = run;
  const shown = decisiveTrials(run);
  const style = paint(colour);
  const southern = scenario.site.latitude_deg < 0;
  const sharedFlags = flagsOfAll(trials);
  const { worst } = overWinters(trials.flatMap((trial) => trial.statistics.winters));
  const lines = [
    ...beginning(run, style),
    ...(run.odds === undefined ? [] : ['', ...oddsLines(run.odds, style)]),
    ...(shown.length < trials.length ? ['', ...trialGrid(run, shown.length, style)] : []),
    ...shown.flatMap((trial) => ['', ...verdictLines(trial, run, style, sharedFlags)]),
    '',
    ...sharedFlags.flatMap((flag) => wrapText(`! Every trial: ${flag}`, 0, 2)),
    ...(sharedFlags.length > 0 ? [''] : []),
    ...winterStrip(shown, worst?.winter ?? '', southern, style),
    ...shown.flatMap((trial) => [
      '',
      ...wrapText(`${trial.lamp} on ${trial.spot}, by month`).map(style.strong),
      ...monthTable(trial, scenario.promise.least_lumen),
    ]),
    '',
    ...wrapText(
      `dim, out, lit: promised hours on below ${scenario.promise.least_lumen} lm, off, and at or above it. h over 1/2, 1/5: hours ` +
        'with more than half, and a fifth, of the light at switching on. Wh/m2: a day, on the cell, and on level ground without a cover. V: of the capacitor, at dusk and dawn the mean of the month.',
    ),
    '',
    ...CAUTION_LINES.map(style.middling),
  ];
  return `${lines.join('\n')}\n`;
}

function beginning(run: RunResult, style: Paint): string[] {
  const { scenario, weather } = run;
  const count = (length: number, word: string) => `${length} ${plural(length, word)}`;
  const filled = weather.filled_hours === 0 ? '' : `, ${weather.filled_hours} of them filled or standing in`;
  const named = run.record === undefined ? '' : `${run.record.origin.file}, `;
  const notes = weatherNotes(weather.options);
  return [
    style.strong(
      `${scenario.name}: ${count(scenario.lamps.length, 'lamp')} in ${count(scenario.spots.length, 'spot')}`,
    ),
    ...partialWords(run)
      .flatMap((words) => wrapText(words))
      .map(style.bad),
    ...wrapText(`Weather: ${named}${weather.hours} hours from ${weather.first_utc}${filled}.${notes}`),
    ...wrapText(promiseWords(scenario.promise)),
    ...scenario.questions.flatMap((question) => wrapText(`? ${question}`, 0, 2)).map(style.middling),
    ...wrapText(
      run.assumptions.length === 0
        ? ''
        : `${count(run.assumptions.length, 'value')} assumed, not stated: see "longnight check".`,
    ),
  ];
}

/** A record that is run over whole, and is whole years: nothing to say. */
const WHOLE_YEARS = /whole year.*that is the whole record/;

/** What must not be missed of how the weather was read. */
function weatherNotes(options: Record<string, string>): string {
  const air = options['air temperature'];
  return [
    options.believe === undefined ? '' : `Stamps: ${options.clock ?? options.believe}.`,
    air?.startsWith('stand-in') ? `Air temperature is a ${air}.` : '',
    options.hours === undefined ? '' : `A row a day, ${options.hours}.`,
    options.stretch === undefined || WHOLE_YEARS.test(options.stretch)
      ? ''
      : `Of the file: ${options.stretch}.`,
    options.start === undefined ? '' : `${options.start}.`,
  ]
    .filter((note) => note !== '')
    .map((note) => ` ${note}`)
    .join('');
}

/** Flags that more than one trial, and every one, carries. */
function flagsOfAll(trials: readonly Trial[]): string[] {
  const [first, ...others] = trials;
  if (first === undefined || others.length === 0) return [];
  return first.flags.filter((flag) => others.every((trial) => trial.flags.includes(flag)));
}

/** The verdict of one trial: a headline, then why, then its own flags; those of all trials are said once, elsewhere. */
function verdictLines(trial: Trial, run: RunResult, style: Paint, sharedFlags: readonly string[]): string[] {
  const { headline, why } = verdictWords(trial, run);
  const flags = trial.flags.filter((flag) => !sharedFlags.includes(flag));
  return [
    ...wrapText(`${trial.lamp} on ${trial.spot}${headline}`).map(style[EMPHASIS[trial.statistics.verdict]]),
    ...wrapText(why, 2),
    ...spreadLines(trial.spread),
    ...changeLines(trial.changes),
    ...flags.flatMap((flag) => wrapText(`! ${flag}`, 2, 4)),
  ];
}

/** How the verdict is painted. */
const EMPHASIS: Readonly<Record<Verdict, keyof Paint>> = {
  kept: 'good',
  broken: 'bad',
  'nothing-promised': 'strong',
  'no-whole-winter': 'strong',
};

/** More months than these are cut to those with failed nights. */
const MOST_MONTHS = 13;

/** A trial month by month: failed nights, hours, light on the cell, capacitor; of a long record only months with failed nights. */
function monthTable(trial: Trial, leastLight_lm: number): string[] {
  const { months } = trial.statistics;
  const shown = months.length > MOST_MONTHS ? months.filter((month) => month.failedNights > 0) : months;
  const columns = monthColumns(leastLight_lm).map((column) => ({
    heading: column.tight,
    cell: (month: MonthStatistics) => monthCell(column, month) || '-',
  }));
  const lines = shown.length > 0 ? textTable(columns, shown) : [];
  const left = months.length - shown.length;
  return left === 0 ? lines : [...lines, `  ${left} months without a failed night are not shown`];
}
