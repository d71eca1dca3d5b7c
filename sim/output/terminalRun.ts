import { fixed } from '../common/csvText.ts';
import { overWinters } from '../statistics/overWinters.ts';
import type { MonthStatistics, Verdict, WinterStatistics } from '../statistics/TrialStatistics.ts';
import { decisiveTrials } from '../trial/decisiveTrials.ts';
import { lampMoney } from '../trial/lampMoney.ts';
import type { RunResult, Trial } from '../trial/Trial.ts';
import { changeLines, spreadLines } from './changeLines.ts';
import { monthCell, monthColumns } from './columns.ts';
import { priceSentence } from './moneyWords.ts';
import { oddsLines } from './oddsText.ts';
import { type Paint, paint, type TextColumn, textTable, wrapText } from './textTable.ts';
import { trialGrid } from './trialGrid.ts';
import { weatherWords } from './weatherWords.ts';
import { verdictWords } from './winterSentences.ts';
import { winterStrip } from './winterStrip.ts';
import { CAUTION_LINES, partialWords, plural, promiseWords, shortDates, shownWords } from './words.ts';

/**
 * The verdict of a run for people: plain sentences first, then a strip of the winter and a table by month (of several
 * winters by winter) for each trial, then cautions; of a large run all trials at a glance, and its decisive ones like
 * that. At most 100 columns; reads the same without colour.
 *
 * in: run; colour, whether the terminal takes it; details, whether every month of several winters is told too
 * out: text, ending in a line break
 */
export function terminalRun(run: RunResult, colour: boolean, details = false): string {
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
    ...winterStrip(shown, worst?.winter ?? '', southern, style, shownWords(run.weather.options) !== ''),
    ...numberTables(run, shown, style, details),
    '',
    ...CAUTION_LINES.map(style.middling),
  ];
  return `${lines.join('\n')}\n`;
}

function beginning(run: RunResult, style: Paint): string[] {
  const { scenario, weather } = run;
  const count = (length: number, word: string) => `${length} ${plural(length, word)}`;
  return [
    style.strong(
      `${scenario.name}: ${count(scenario.lamps.length, 'lamp')} in ${count(scenario.spots.length, 'spot')}`,
    ),
    ...partialWords(run)
      .flatMap((words) => wrapText(words))
      .map(style.bad),
    ...wrapText(weatherWords(weather, run.record?.origin.file)),
    ...wrapText(promiseWords(scenario.promise)),
    ...scenario.questions.flatMap((question) => wrapText(`? ${question}`, 0, 2)).map(style.middling),
    ...wrapText(
      run.assumptions.length === 0
        ? ''
        : `${count(run.assumptions.length, 'value')} assumed, not stated: see "longnight check".`,
    ),
  ];
}

/** Flags that more than one trial, and every one, carries. */
function flagsOfAll(trials: readonly Trial[]): string[] {
  const [first, ...others] = trials;
  if (first === undefined || others.length === 0) return [];
  return first.flags.filter((flag) => others.every((trial) => trial.flags.includes(flag)));
}

/** The verdict of one trial: a headline, then why, then its own flags; those of all trials are said once, elsewhere. */
function verdictLines(trial: Trial, run: RunResult, style: Paint, sharedFlags: readonly string[]): string[] {
  const { site } = run.scenario;
  const beside = run.trials.filter(({ lamp }) => lamp === trial.lamp);
  const { headline, why } = verdictWords(trial, { site, beside });
  const flags = trial.flags.filter((flag) => !sharedFlags.includes(flag));
  return [
    ...wrapText(`${trial.lamp} on ${trial.spot}${headline}`).map(style[EMPHASIS[trial.statistics.verdict]]),
    ...wrapText(why, 2),
    ...wrapText(priceSentence(lampMoney(run.scenario, trial)), 2),
    ...spreadLines(trial.spread),
    ...changeLines(trial.changes, run.scenario, trial.statistics.odds?.winters),
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

/** What each trial comes to in numbers: by winter where there are several, else (or where all is asked for) by month. */
function numberTables(run: RunResult, shown: readonly Trial[], style: Paint, details: boolean): string[] {
  const { least_lumen } = run.scenario.promise;
  const table = (trial: Trial, by: string, lines: string[]) => [
    '',
    ...wrapText(`${trial.lamp} on ${trial.spot}, by ${by}`).map(style.strong),
    ...lines,
  ];
  const several = shown.filter(({ statistics }) => statistics.odds !== undefined);
  const monthly = details ? shown : shown.filter((trial) => !several.includes(trial));
  const monthWords =
    `dim, out, lit: promised hours on below ${least_lumen} lm, off, and at or above it. h over 1/2, 1/5: hours ` +
    'with more than half, and a fifth, of the light at switching on. Wh/m2: a day, on the cell, and on level ground without a cover. V: of the capacitor, at dusk and dawn the mean of the month.';
  const winterWords =
    'J left: least energy above the cut-off in a morning. Every month: --details. Every night: nights.csv.';
  return [
    ...several.flatMap((trial) => table(trial, 'winter', winterTable(trial))),
    ...(several.length > 0 && !details ? ['', ...wrapText(winterWords)] : []),
    ...monthly.flatMap((trial) => table(trial, 'month', monthTable(trial, least_lumen, details))),
    ...(monthly.length > 0 ? ['', ...wrapText(monthWords)] : []),
  ];
}

/** A trial winter by winter. */
function winterTable({ statistics }: Trial): string[] {
  const columns: TextColumn<WinterStatistics>[] = [
    {
      heading: ['winter', ''],
      cell: ({ winter, extent }) => `${winter}${extent === 'whole' ? '' : EXTENTS[extent]}`,
    },
    { heading: ['failed', 'nights'], cell: ({ failedNights }) => String(failedNights) },
    { heading: ['short', 'h'], cell: ({ short_h }) => fixed(short_h, 1) },
    { heading: ['of it', 'out'], cell: ({ out_h }) => fixed(out_h, 1) },
    { heading: ['failed', 'in a row'], cell: ({ longestSpell: spell }) => String(spell?.nights ?? 0) },
    {
      heading: ['', ''],
      cell: ({ longestSpell: spell }) => (spell ? shortDates(spell.from, spell.to) : '-'),
    },
    {
      heading: ['darkest', 'fortnight'],
      cell: ({ darkestFortnight: dark }) => (dark ? shortDates(dark.from, dark.to) : '-'),
    },
    {
      heading: ['short', 'h'],
      cell: ({ darkestFortnight: dark }) => (dark ? fixed(dark.short_h, 1) : '-'),
    },
    { heading: ['J', 'left'], cell: ({ smallestReserve_J }) => fixed(smallestReserve_J, 0) || '-' },
  ];
  // A record that begins in the night holds a part of a winter without a night.
  return textTable(
    columns,
    statistics.winters.filter(({ complete, nights }) => complete || nights > 0),
  );
}

/** What must be said of a winter that the record does not hold whole. */
const EXTENTS = { 'dark-months': ', dark months', part: ', in part' } as const;

/** More months than these are cut to those with failed nights, unless all are asked for. */
const MOST_MONTHS = 13;

/** A trial month by month: failed nights, hours, light on the cell, capacitor. */
function monthTable(trial: Trial, leastLight_lm: number, all: boolean): string[] {
  const { months } = trial.statistics;
  const shown =
    months.length > MOST_MONTHS && !all ? months.filter((month) => month.failedNights > 0) : months;
  const columns = monthColumns(leastLight_lm).map((column) => ({
    heading: column.tight,
    cell: (month: MonthStatistics) => monthCell(column, month) || '-',
  }));
  const lines = shown.length > 0 ? textTable(columns, shown) : [];
  const left = months.length - shown.length;
  return left === 0 ? lines : [...lines, `  ${left} months without a failed night are not shown`];
}
