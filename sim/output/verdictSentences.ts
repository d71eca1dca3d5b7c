import type { WinterStatistics } from '../statistics/types.ts';
import type { Trial } from '../trial/Trial.ts';
import { lightSentence } from './lightSentence.ts';
import type { Paint } from './paint.ts';
import { remedyLines } from './remedyLines.ts';
import { winterSentences } from './winterSentences.ts';
import { worstWinter } from './worstWinter.ts';
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
  const worst = worstWinter(trial);
  const sentences = worst === undefined ? [] : winterSentences(worst, trial, setting.civil, withYear);
  const light = lightSentence(trial, setting.trials, setting.southern);
  return [
    ...headline(trial, worst, setting.paint),
    ...wrapText([...sentences, light].join(' '), 2),
    ...remedyLines(trial.remedies),
    ...trial.flags
      .filter((flag) => !setting.sharedFlags.includes(flag))
      .flatMap((flag) => wrapText(`! ${flag}`, 2, 4)),
  ];
}

function headline(trial: Trial, worst: WinterStatistics | undefined, paint: Paint): string[] {
  const name = `${trial.lamp} on ${trial.spot}`;
  const { verdict, winters } = trial.statistics;
  const whole = winters.filter((winter) => winter.complete);
  const counted = worst === undefined ? '' : `${worst.failureNights} of ${worst.nights} nights`;
  switch (verdict) {
    case 'kept': {
      const nights =
        whole.length > 1 ? `${whole.length} winters` : `${worst?.nights ?? 0} of ${worst?.nights ?? 0}`;
      return wrapText(`${name} keeps its promise every night (${nights}).`).map(paint.good);
    }
    case 'broken': {
      const broken = whole.filter((winter) => winter.failureNights > 0);
      const text =
        whole.length > 1
          ? `in ${broken.length} of ${whole.length} winters; worst ${worst?.winter ?? ''}: ${counted}.`
          : `on ${counted}.`;
      return wrapText(`${name} breaks its promise ${text}`).map(paint.bad);
    }
    case 'nothing-promised':
      return wrapText(`${name}: no night in this record in which anything is promised.`).map(paint.strong);
    case 'no-whole-winter': {
      const part = worst === undefined || worst.nights === 0 ? '' : ` In the part there is, ${counted} fail.`;
      return wrapText(`${name}: no verdict, the record holds no whole winter.${part}`).map(paint.strong);
    }
  }
}
