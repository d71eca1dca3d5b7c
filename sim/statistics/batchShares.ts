import { mean, quantile, variance } from 'simple-statistics';
import { square } from '../common/numeric.ts';

/** What many lamps of one kind in many winters tell of both. */
export interface BatchShares {
  lamps: number;
  winters: number;
  /** Lamps of the batch that break the promise, in a typical winter and in the worst of ten. */
  breakTypical: number;
  breakWorstInTen: number;
  /** Shares of the variance of failed nights: lamps that differ, winters that differ, and both together. */
  parts: number;
  weather: number;
  both: number;
  /** Failed nights a winter of each lamp, means. */
  failedNights: number[];
}

/**
 * Lamps and winters told apart by the failed nights of every lamp in every winter.
 *
 * in: failed, a row a winter, in it a number a lamp; two of each at least
 * out: shares, 0 to 1, adding up to 1; all NaN where nothing ever differs
 * source: Fisher1925 (analysis of variance by two ways, one value a cell)
 */
export function batchShares(failed: readonly (readonly number[])[]): BatchShares {
  const winters = failed.length;
  const lamps = failed[0]!.length;
  const byLamp = Array.from({ length: lamps }, (_, l) => mean(failed.map((row) => row[l]!)));
  const byWinter = failed.map((row) => mean(row as number[]));
  const grand = mean(byWinter);
  let squares = 0;
  failed.forEach((row, w) => {
    row.forEach((value, l) => {
      squares += square(value - byWinter[w]! - byLamp[l]! + grand);
    });
  });
  const both = squares / ((winters - 1) * (lamps - 1));
  // What is left over of both shows in the means too.
  const between = (means: number[], of: number) =>
    Math.max(0, (variance(means) * means.length) / (means.length - 1) - both / of);
  const parts = between(byLamp, winters);
  const weather = between(byWinter, lamps);
  const whole = parts + weather + both;
  const breaking = failed.map((row) => row.filter((value) => value > 0).length);
  return {
    lamps,
    winters,
    breakTypical: quantile(breaking, 0.5),
    breakWorstInTen: quantile(breaking, 0.9),
    parts: whole > 0 ? parts / whole : Number.NaN,
    weather: whole > 0 ? weather / whole : Number.NaN,
    both: whole > 0 ? both / whole : Number.NaN,
    failedNights: byLamp,
  };
}
