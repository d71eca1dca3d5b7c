import type { WinterStatistics } from '../statistics/types.ts';
import type { Trial } from '../trial/Trial.ts';

/**
 * The winter with most failure nights, whole winters before part winters; ties: most dark hours, then the earlier.
 *
 * in: trial
 * out: one of its winters; undefined where it has none
 */
export function worstWinter(trial: Trial): WinterStatistics | undefined {
  const { winters } = trial.statistics;
  const whole = winters.filter((winter) => winter.complete);
  return (whole.length > 0 ? whole : winters).reduce<WinterStatistics | undefined>(
    (worst, winter) => (worst === undefined || isWorse(winter, worst) ? winter : worst),
    undefined,
  );
}

export function isWorse(winter: WinterStatistics, than: WinterStatistics): boolean {
  return winter.failureNights !== than.failureNights
    ? winter.failureNights > than.failureNights
    : winter.dark_h > than.dark_h;
}
