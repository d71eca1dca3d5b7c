import type { WinterStatistics } from '../statistics/types.ts';
import type { Trial } from '../trial/Trial.ts';

/**
 * The winter with most failed nights, whole winters before part winters; ties: most short hours, then the earlier.
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
  return winter.failedNights !== than.failedNights
    ? winter.failedNights > than.failedNights
    : winter.short_h > than.short_h;
}
