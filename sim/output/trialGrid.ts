import { overWinters } from '../statistics/overWinters.ts';
import type { Verdict } from '../statistics/TrialStatistics.ts';
import { decisiveWords } from '../trial/decisiveTrials.ts';
import type { RunResult, Trial } from '../trial/Trial.ts';
import { shortened } from './shownWidth.ts';
import { type Paint, sideBySide } from './textTable.ts';
import { plural } from './words.ts';

const MOST_ROWS = 40;
const MOST_COLUMNS = 24;
const LONGEST_LABEL = 24;

const COUNTED: Readonly<Record<Verdict, string>> = {
  kept: 'keep the promise every night',
  broken: 'break it',
  'nothing-promised': 'have no night in which anything is promised',
  'no-whole-winter': 'have no whole winter to judge by',
};

/**
 * The trials of a large run at a glance: how many keep the promise, and the failed nights of each, spots against lamps.
 *
 * in: run; shown, how many of its trials are shown in full; style
 * out: lines of at most 100 characters, at most some 250 of them
 */
export function trialGrid(run: RunResult, shown: number, style: Paint): string[] {
  const { trials, scenario } = run;
  const counts = (Object.keys(COUNTED) as Verdict[]).flatMap((verdict) => {
    const count = trials.filter(({ statistics }) => statistics.verdict === verdict).length;
    return count === 0 ? [] : [`${count} ${COUNTED[verdict]}`];
  });
  const [down, across] =
    scenario.lamps.length > scenario.spots.length ? (['lamp', 'spot'] as const) : (['spot', 'lamp'] as const);
  const names = { spot: scenario.spots, lamp: scenario.lamps };
  const rows = names[down].slice(0, MOST_ROWS);
  const columns = names[across].slice(0, MOST_COLUMNS);
  const byName = new Map(trials.map((trial) => [nameOf(trial[down], trial[across]), trial]));
  const left = trials.length - shown;
  return [
    ...style.wrap(`Of ${trials.length} trials ${counts.join(', ')}.`).map(style.strong),
    '',
    `Failed nights of the worst winter, a ${down} a row, a ${across} a column:`,
    ...sideBySide(
      columns.map(({ name }) => name),
      rows.map((row) => {
        const own = columns.map((column) => byName.get(nameOf(row.name, column.name)));
        return {
          label: shortened(row.name, LONGEST_LABEL),
          cells: own.map(cellText),
          paint: (text: string, k: number) => painted(text, own[k], style),
        };
      }),
      style.columns,
    ),
    ...[
      [down, names[down].length - rows.length] as const,
      [across, names[across].length - columns.length] as const,
    ].flatMap(([what, more]) =>
      more > 0 ? [`  ${more} more ${plural(more, what)}${style.filed ? ': see summary.json' : ''}`] : [],
    ),
    '',
    ...style.wrap(
      `Shown in full: ${decisiveWords(run)}.${style.filed ? ` The other ${left}: every night in nights.csv, what each comes to in summary.json, its winter as a strip on the page.` : ''}`,
    ),
  ];
}

function nameOf(one: string, other: string): string {
  return JSON.stringify([one, other]);
}

/** Failed nights of a trial's worst winter; '' where it was not run. */
function cellText(trial: Trial | undefined): string {
  if (trial === undefined) return '';
  const { worst } = overWinters(trial.statistics.winters);
  return worst === undefined || worst.nights === 0 ? '-' : String(worst.failedNights);
}

function painted(text: string, trial: Trial | undefined, style: Paint): string {
  if (trial?.statistics.verdict === 'broken') return style.bad(text);
  return trial?.statistics.verdict === 'kept' ? style.good(text) : text;
}
