import { fixed } from '../common/csvText.ts';
import { overWinters } from '../statistics/overWinters.ts';
import type { MonthStatistics, Verdict, WinterStatistics } from '../statistics/TrialStatistics.ts';
import { decisiveTrials } from '../trial/decisiveTrials.ts';
import { lampMoney } from '../trial/lampMoney.ts';
import type { RunResult, Trial } from '../trial/Trial.ts';
import { bestChangeLines, changeLines, spreadLines } from './changeLines.ts';
import { monthCell, monthColumns } from './columns.ts';
import { partsSentence, priceSentence } from './moneyWords.ts';
import { oddsLines } from './oddsText.ts';
import {
  type Emphasis,
  type Look,
  type Paint,
  paint,
  sideBySide,
  type TextColumn,
  textTable,
} from './textTable.ts';
import { trialGrid } from './trialGrid.ts';
import { weatherWords } from './weatherWords.ts';
import { darkestLightSentence, verdictWords } from './winterSentences.ts';
import { winterStrip } from './winterStrip.ts';
import {
  CAUTION_LINES,
  partialWords,
  plural,
  promisedLight,
  promiseWords,
  shortDates,
  shownWords,
} from './words.ts';

/**
 * The verdict of a run for people: of each trial a sentence, its worst winter and what mends it, then the light, the prices
 * and the flags of all, a strip of the failed nights (of several winters how many failed in each), then cautions; of a large
 * run all trials at a glance, and its decisive ones like that. Reads the same without colour.
 *
 * in: run; look, in details with every change, night and month
 * out: text, ending in a line break
 */
export function terminalRun(run: RunResult, look: Look = {}): string {
  const { scenario, trials } = run;
  const style = paint(look);
  const shown = decisiveTrials(run);
  const sharedFlags = flagsOfAll(trials);
  const lines = [
    ...beginning(run, style),
    ...(run.odds === undefined ? [] : ['', ...oddsLines(run.odds, style)]),
    ...(shown.length < trials.length ? ['', ...trialGrid(run, shown.length, style)] : []),
    ...verdictBlocks(run, shown, style, sharedFlags),
    '',
    ...(style.details
      ? []
      : style.wrap(`${darkestLightSentence(shown, scenario.site.latitude_deg < 0)} ${partsOf(run, shown)}`)),
    ...sharedFlags.flatMap((flag) => style.wrap(`! Every trial: ${flag}`, 0, 2)),
    ...stripLines(run, shown, style),
    ...(style.details ? numberTables(run, shown, style) : winterGrid(shown, style)),
    '',
    ...CAUTION_LINES.flatMap((line) => style.wrap(line)).map(style.middling),
  ];
  return `${lines.filter((line, k) => line !== '' || lines[k - 1] !== '').join('\n')}\n`;
}

function beginning(run: RunResult, style: Paint): string[] {
  const { scenario, weather } = run;
  const count = (length: number, word: string) => `${length} ${plural(length, word)}`;
  const assumed =
    run.assumptions.length === 0
      ? ''
      : `${count(run.assumptions.length, 'value')} assumed, not stated: see "longnight check".`;
  return [
    style.strong(
      `${scenario.name}: ${count(scenario.lamps.length, 'lamp')} in ${count(scenario.spots.length, 'spot')}`,
    ),
    ...partialWords(run)
      .flatMap((words) => style.wrap(words))
      .map(style.bad),
    ...style.wrap(
      [weatherWords(weather, run.record?.origin.file), promiseWords(scenario.promise), assumed].join(' '),
    ),
    ...scenario.questions.flatMap((question) => style.wrap(`? ${question}`, 0, 2)).map(style.middling),
  ];
}

/** The prices of the lamps of trials, and what light they buy where. */
function partsOf({ scenario }: RunResult, shown: readonly Trial[]): string {
  const lamps = [...new Set(shown.map(({ lamp }) => lamp))].map((lamp) => ({
    lamp,
    spots: shown
      .filter((trial) => trial.lamp === lamp)
      .map((trial) => ({ spot: trial.spot, money: lampMoney(scenario, trial) })),
  }));
  return partsSentence(lamps);
}

/** Flags that more than one trial, and every one, carries. */
function flagsOfAll(trials: readonly Trial[]): string[] {
  const [first, ...others] = trials;
  if (first === undefined || others.length === 0) return [];
  return first.flags.filter((flag) => others.every((trial) => trial.flags.includes(flag)));
}

/** Where more trials than these are shown, fewer changes are told of each. */
const FEW_TRIALS = 4;
const BEST_CHANGES = { few: 3, many: 2 } as const;

/** The verdicts of trials: first those that keep their promise, a line or two each, then a block for each of the others. */
function verdictBlocks(
  run: RunResult,
  shown: readonly Trial[],
  style: Paint,
  sharedFlags: readonly string[],
): string[] {
  const keeps = ({ statistics }: Trial) => statistics.verdict === 'kept';
  const most = BEST_CHANGES[shown.length > FEW_TRIALS ? 'many' : 'few'];
  const blockOf = (trial: Trial) => verdictLines(trial, run, style, { sharedFlags, most });
  const kept = shown.filter(keeps).flatMap(blockOf);
  return [
    ...(kept.length > 0 ? ['', ...kept] : []),
    ...shown.filter((trial) => !keeps(trial)).flatMap((trial) => ['', ...blockOf(trial)]),
  ];
}

/** The verdict of one trial: a headline, its worst winter, what mends it, then its own flags. */
function verdictLines(
  trial: Trial,
  run: RunResult,
  style: Paint,
  { sharedFlags, most }: { sharedFlags: readonly string[]; most: number },
): string[] {
  const { scenario, trials } = run;
  const beside = trials.filter(({ lamp }) => lamp === trial.lamp);
  const { headline, winter, why } = verdictWords(trial, { site: scenario.site, beside });
  const flags = trial.flags.filter((flag) => !sharedFlags.includes(flag));
  const winters = trial.statistics.odds?.winters ?? 1;
  return [
    ...style.wrap(`${trial.lamp} on ${trial.spot}${headline}`).map(style[EMPHASIS[trial.statistics.verdict]]),
    ...style.wrap(style.details ? `${why} ${priceSentence(lampMoney(scenario, trial))}` : winter, 2),
    ...spreadLines(trial.spread, style),
    ...(style.details
      ? changeLines(trial.changes, scenario, winters, style)
      : bestChangeLines(trial.changes, scenario, winters, most, style)),
    ...flags.flatMap((flag) => style.wrap(`! ${flag}`, 2, 4)),
  ];
}

/** How the verdict is painted. */
const EMPHASIS: Readonly<Record<Verdict, Emphasis>> = {
  kept: 'good',
  broken: 'bad',
  'nothing-promised': 'strong',
  'no-whole-winter': 'strong',
};

/** The worst winter as a strip; without details only where a night of it failed. */
function stripLines(run: RunResult, shown: readonly Trial[], style: Paint): string[] {
  const { worst } = overWinters(run.trials.flatMap((trial) => trial.statistics.winters));
  const lines = winterStrip(shown, worst?.winter ?? '', paintedStrip(run, style));
  return lines.length === 0 ? [] : ['', ...lines];
}

function paintedStrip({ scenario, weather }: RunResult, style: Paint) {
  const southern = scenario.site.latitude_deg < 0;
  return { southern, style, made: shownWords(weather.options) !== '', whole: style.details };
}

/** A longer record leaves winters without a failed night out. */
const MOST_WINTERS = 24;

/** Of several winters the failed nights of each, trials side by side. */
function winterGrid(shown: readonly Trial[], style: Paint): string[] {
  const several = shown.filter(({ statistics }) => statistics.odds !== undefined);
  const rows =
    several.length === 0
      ? []
      : toldWinters(several[0]!).map((one) => ({
          label: winterName(one),
          cells: several.map(({ statistics }) => {
            const own = statistics.winters.find(({ winter }) => winter === one.winter);
            return String(own?.failedNights ?? '-');
          }),
        }));
  const failing = rows.filter(({ cells }) => cells.some((cell) => Number(cell) > 0));
  const told = rows.length > MOST_WINTERS ? failing : rows;
  if (told.length === 0) return [];
  const left = rows.length - told.length;
  return [
    '',
    style.strong('Failed nights, winter by winter'),
    ...sideBySide(
      several.map(({ lamp, spot }) => `${lamp} on ${spot}`),
      told,
      style.columns,
    ),
    ...(left > 0 ? [`  ${left} winters without a failed night are not shown`] : []),
  ];
}

/** What each trial comes to in numbers: by winter where there are several, and by month. */
function numberTables(run: RunResult, shown: readonly Trial[], style: Paint): string[] {
  const { least_lumen } = run.scenario.promise;
  const table = (trial: Trial, by: string, lines: string[]) => [
    '',
    ...style.wrap(`${trial.lamp} on ${trial.spot}, by ${by}`).map(style.strong),
    ...lines,
  ];
  const several = shown.filter(({ statistics }) => statistics.odds !== undefined);
  const monthWords =
    `dim, out, lit: promised hours on below ${promisedLight(least_lumen)}, off, and at or above it. h over 1/2, 1/5: hours ` +
    'with more than half, and a fifth, of the light at switching on. Wh/m2: a day, on the cell, and on level ground without a cover. V: of the capacitor, at dusk and dawn the mean of the month, least V of all its nights.';
  return [
    ...several.flatMap((trial) => table(trial, 'winter', winterTable(trial, style))),
    ...(several.length > 0 ? ['', ...style.wrap(WINTER_WORDS)] : []),
    ...shown.flatMap((trial) => table(trial, 'month', monthTable(trial, least_lumen, style))),
    '',
    ...style.wrap(monthWords),
  ];
}

/** What the table by winter calls what is left. */
const WINTER_WORDS = 'J left: least energy above the cut-off in a morning.';

/** A trial winter by winter. */
function winterTable(trial: Trial, style: Paint): string[] {
  const columns: TextColumn<WinterStatistics>[] = [
    { heading: ['winter', ''], cell: winterName },
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
  return textTable(columns, toldWinters(trial), style.columns);
}

/** A record that begins in the night holds a part of a winter without a night, of which nothing is told. */
function toldWinters({ statistics }: Trial): WinterStatistics[] {
  return statistics.winters.filter(({ complete, nights }) => complete || nights > 0);
}

function winterName({ winter, extent }: WinterStatistics): string {
  return `${winter}${extent === 'whole' ? '' : EXTENTS[extent]}`;
}

/** What must be said of a winter that the record does not hold whole. */
const EXTENTS = { 'dark-months': ', dark months', part: ', in part' } as const;

/** A trial month by month: failed nights, hours, light on the cell, capacitor. */
function monthTable({ statistics: { months } }: Trial, leastLight_lm: number, style: Paint): string[] {
  const columns = monthColumns(leastLight_lm).map((column) => ({
    heading: column.tight,
    cell: (month: MonthStatistics) => monthCell(column, month) || '-',
  }));
  return months.length > 0 ? textTable(columns, months, style.columns) : [];
}
