import { probit } from 'simple-statistics';
import type { LampParams } from '../lamp/params.ts';
import { type BatchShares, batchShares } from '../statistics/batchShares.ts';
import type { MadeWinter } from './MadeTrials.ts';
import { builtLamps } from './partTolerances.ts';
import { rankCorrelation } from './spread.ts';

/** A batch of lamps built to one list of parts, over made winters. */
export interface LampBatch extends Omit<BatchShares, 'failedNights'> {
  /** The part whose strays failed nights follow most closely; only where chance would rarely show as much of any. */
  mostly?: { key: string; rankCorrelation: number };
}

export const MOST_LAMPS = 200;
/** Winters that every lamp of a batch goes through, at most. */
export const BATCH_WINTERS = 30;
/** A part is named where chance would show as much of any of them in one case of twenty. */
const RARE = 0.05;

/**
 * What a batch of built lamps comes to.
 *
 * in: made, each winter of all lamps in turn; lamp, as stated; count, of lamps; seed they were built with
 * out: undefined where fewer than two winters were run whole
 * source: Spearman1904, Dunn1961
 */
export function lampBatch(
  made: readonly MadeWinter[],
  lamp: LampParams,
  count: number,
  seed: number,
): LampBatch | undefined {
  const failed = Array.from({ length: Math.floor(made.length / count) }, (_, w) =>
    made.slice(w * count, (w + 1) * count).map(({ failedNights }) => failedNights),
  );
  if (failed.length < 2) return undefined;
  const { failedNights, ...shares } = batchShares(failed);
  const built = builtLamps(lamp, count, seed);
  const [first] = Object.keys(built[0]!.factors)
    .map((key) => ({
      key,
      rankCorrelation: rankCorrelation(
        built.map(({ factors }) => factors[key]!),
        failedNights,
      ),
    }))
    .filter(({ rankCorrelation: found }) => !Number.isNaN(found))
    .sort((one, other) => Math.abs(other.rankCorrelation) - Math.abs(one.rankCorrelation));
  const least = probit(1 - RARE / 2 / Object.keys(built[0]!.factors).length) / Math.sqrt(count - 1);
  const stands = first !== undefined && Math.abs(first.rankCorrelation) >= least;
  return { ...shares, ...(stands ? { mostly: first } : {}) };
}
