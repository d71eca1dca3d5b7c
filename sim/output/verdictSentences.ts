import { overWinters } from '../statistics/overWinters.ts';
import type { Verdict } from '../statistics/TrialStatistics.ts';
import type { Trial } from '../trial/Trial.ts';
import { changeLines } from './changeLines.ts';
import { headline } from './headline.ts';
import { lightSentence } from './lightSentence.ts';
import type { Paint } from './paint.ts';
import { spreadLines } from './spreadLines.ts';
import { winterSentences } from './winterSentences.ts';
import { wrapText } from './wrapText.ts';

export interface VerdictSetting {
  /** All trials of the run: the spots are held against each other. */
  trials: readonly Trial[];
  /** Whether the site lies south of the equator. */
  southern: boolean;
  /** Writes an instant as civil time with offset. */
  civil: (ms: number) => string;
  paint: Paint;
  /** Flags that all trials carry: said once, elsewhere. */
  sharedFlags: readonly string[];
}

/**
 * The verdict of one trial for people: a headline, then why, then its own flags, as lines for the terminal.
 *
 * in: trial; setting
 * out: lines of at most 100 characters
 */
export function verdictSentences(trial: Trial, setting: VerdictSetting): string[] {
  const { winters } = trial.statistics;
  const withYear = winters.length > 1;
  const { worst } = overWinters(winters);
  const sentences = worst === undefined ? [] : winterSentences(worst, trial, setting.civil, withYear);
  const light = lightSentence(trial, setting.trials, setting.southern);
  return [
    ...wrapText(`${trial.lamp} on ${trial.spot}${headline(trial, worst)}`).map(
      setting.paint[EMPHASIS[trial.statistics.verdict]],
    ),
    ...wrapText([...sentences, light].join(' '), 2),
    ...spreadLines(trial.spread),
    ...changeLines(trial.changes),
    ...trial.flags
      .filter((flag) => !setting.sharedFlags.includes(flag))
      .flatMap((flag) => wrapText(`! ${flag}`, 2, 4)),
  ];
}

/** How the verdict is painted. */
const EMPHASIS: Readonly<Record<Verdict, keyof Paint>> = {
  kept: 'good',
  broken: 'bad',
  'nothing-promised': 'strong',
  'no-whole-winter': 'strong',
};
