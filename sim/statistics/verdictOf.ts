import type { Verdict, WinterStatistics } from './types.ts';

/**
 * The answer for a trial: it rests on whole winters only.
 * in: winters, as winterStatistics gives them
 */
export function verdictOf(winters: readonly WinterStatistics[]): Verdict {
  const whole = winters.filter((winter) => winter.complete);
  if (whole.length === 0) return 'no-whole-winter';
  if (whole.every((winter) => winter.nights === 0)) return 'nothing-promised';
  return whole.some((winter) => winter.failedNights > 0) ? 'broken' : 'kept';
}
