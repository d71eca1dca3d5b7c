import { STANDARD_ERRORS_90 } from '../common/Estimate.ts';
import { covarianceAlong, type LeastSquaresFit, slopesOf } from '../common/leastSquares.ts';
import type { NextReading } from './FitReport.ts';

/** A reading that could be taken: what it would show for given unknowns, and its standard deviation. */
export interface Candidate {
  read: string;
  shown: (values: readonly number[]) => number;
  error: number;
}

/** What is wanted: a result that matters, in words, and what it is for given unknowns. */
export interface Target {
  what: string;
  unit: string;
  of: (values: readonly number[]) => number;
}

const WORTH_READING = 0.93;
/** Of the slopes, in standard errors. */
const STEP = 0.05;

/**
 * The reading, of some that could be taken, that narrows a result most; undefined where none narrows it by 7 percent.
 *
 * in: solved, a fit; target; candidates
 * out: the reading with the half width of the 90 percent interval of the target before and after
 * valid: as far as the results are straight lines in the unknowns over a standard error
 * source: JCGM100 (a further reading as one row more in the normal equations)
 */
export function narrowed(
  solved: LeastSquaresFit,
  target: Target,
  candidates: readonly Candidate[],
): NextReading | undefined {
  const wanted = slopesOf(solved, target.of, STEP);
  const variance = covarianceAlong(solved, wanted, wanted);
  let best: { read: string; after: number } | undefined;
  for (const { read, shown, error } of candidates) {
    const seen = slopesOf(solved, shown, STEP);
    const shared = covarianceAlong(solved, wanted, seen);
    const after = variance - shared ** 2 / (error ** 2 + covarianceAlong(solved, seen, seen));
    if (best === undefined || after < best.after) best = { read, after };
  }
  if (best === undefined || best.after > WORTH_READING ** 2 * variance) return undefined;
  const half = (of: number) => STANDARD_ERRORS_90 * Math.sqrt(Math.max(0, of));
  const { what, unit } = target;
  return { read: best.read, gain: { what, unit, half: half(variance), halfAfter: half(best.after) } };
}
