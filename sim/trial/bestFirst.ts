import type { ComparedTrial } from './Comparison.ts';

const PLACES = { kept: 0, broken: 1, 'no-whole-winter': 2, 'nothing-promised': 2 } as const;

/**
 * Compared trials from that which keeps its promise with most to spare to that which breaks it most; those without a
 * verdict last. To spare is the energy left in the worst morning; of those that break it those come first that keep most
 * winters, then those with fewest failed nights a winter, then with fewest short hours.
 *
 * in: trials
 * out: the same in that order
 */
export function bestFirst(trials: readonly ComparedTrial[]): ComparedTrial[] {
  const spare_J = (trial: ComparedTrial) =>
    Number.isNaN(trial.smallestReserve_J) ? Number.NEGATIVE_INFINITY : trial.smallestReserve_J;
  const keptShare = ({ odds }: ComparedTrial) => (odds === undefined ? 0 : odds.kept / odds.winters);
  const aWinter = (trial: ComparedTrial, of: number) => of / Math.max(trial.winters, 1);
  return [...trials].sort((a, b) => {
    const byVerdict = PLACES[a.verdict] - PLACES[b.verdict];
    if (byVerdict !== 0) return byVerdict;
    if (a.verdict === 'kept') return spare_J(b) - spare_J(a) || 0;
    return (
      keptShare(b) - keptShare(a) ||
      aWinter(a, a.failedNights) - aWinter(b, b.failedNights) ||
      aWinter(a, a.short_h) - aWinter(b, b.short_h)
    );
  });
}
