import { overWinters } from '../statistics/overWinters.ts';
import type { WinterStatistics } from '../statistics/TrialStatistics.ts';
import type { Trial } from '../trial/Trial.ts';

/**
 * The verdict of a trial in a sentence or two, to be put after its name: ' keeps its promise every night (365 of 365).'
 *
 * in: trial; worst, its worst winter (undefined where it has none)
 * out: words, beginning with the blank or colon that parts them from the name
 */
export function headline(trial: Trial, worst: WinterStatistics | undefined): string {
  const { verdict, winters } = trial.statistics;
  const { whole, broken } = overWinters(winters);
  const counted = worst === undefined ? '' : `${worst.failedNights} of ${worst.nights} nights`;
  switch (verdict) {
    case 'kept': {
      const nights = whole > 1 ? `${whole} winters` : `${worst?.nights ?? 0} of ${worst?.nights ?? 0}`;
      return ` keeps its promise every night (${nights}).`;
    }
    case 'broken': {
      return whole > 1
        ? ` breaks its promise in ${broken} of ${whole} winters; worst ${worst?.winter ?? ''}: ${counted}.`
        : ` breaks its promise on ${counted}.`;
    }
    case 'nothing-promised':
      return ': no night in this record in which anything is promised.';
    case 'no-whole-winter': {
      const part = worst === undefined || worst.nights === 0 ? '' : ` In the part there is, ${counted} fail.`;
      return `: no verdict, the record holds no whole winter.${part}`;
    }
  }
}
