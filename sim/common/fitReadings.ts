import { maxIndex } from 'd3-array';
import { erf } from 'simple-statistics';
import { type Bench, nearestValues } from './Bench.ts';
import { type FittedReading, STANDARD_ERRORS_90 } from './Estimate.ts';
import { exp } from './elementary/exp.ts';
import type { Report } from './InputProblem.ts';
import { type LeastSquaresFit, withCovariance } from './leastSquares.ts';
import type { Fineness } from './leastValues.ts';

/** The unknowns of a part as its readings have them. */
export interface ReadingsFit extends LeastSquaresFit {
  bench: Bench;
}

/**
 * The same as `nearestValues`, with how well they are known.
 *
 * in: bench; fineness, as leastValues takes it
 * out: values, covariance and residuals: readings first, then priors
 */
export function fitReadings(bench: Bench, fineness?: Fineness): ReadingsFit {
  return { ...withCovariance(nearestValues(bench, fineness), bench.unknowns), bench };
}

/** The readings of a fit beside what the fitted part would show. */
export function fittedReadings({ bench, residuals }: ReadingsFit): FittedReading[] {
  return bench.readings.map(({ what, unit, measured, error }, i) => ({
    what,
    unit,
    measured,
    error,
    fitted: measured + residuals[i]! * error,
  }));
}

/** How much readings scatter around a fit. */
export interface Scatter {
  /** Standard errors grow by so much; 1 where the readings keep to their errors. */
  factor: number;
  notes: string[];
}

const CANNOT_BE = 8;

/**
 * How much more readings scatter around a fit than their stated errors allow, a factor of 1 or more.
 *
 * in: fit; report, takes readings that cannot belong to one part; part, in words
 * out: the factor, with a note where it is above 1; undefined after a problem
 * source: JCGM100 (errors widened by the scatter where it is larger)
 */
export function reducedChiSquare(fit: ReadingsFit, report: Report, part: string): Scatter | undefined {
  const { residuals, sumOfSquares, freedom } = fit;
  if (freedom === 0) return { factor: 1, notes: [] };
  const ratio = sumOfSquares / freedom;
  const usual = 1 + 2 * STANDARD_ERRORS_90 * Math.sqrt(2 / freedom);
  if (ratio <= usual) return { factor: 1, notes: [] };
  const { readings } = fit.bench;
  const worst = maxIndex(readings, (_, i) => Math.abs(residuals[i]!));
  const { what, path, measured, unit } = readings[worst]!;
  const factor = Math.sqrt(ratio);
  if (factor > CANNOT_BE) {
    report({
      code: 'SCENARIO_CONFLICT',
      path,
      got: `${what}: ${measured} ${unit}, ${Math.abs(residuals[worst]!).toFixed(0)} standard errors from the ${part} nearest to all readings`,
      expected: `readings that one ${part} can show`,
      fix: 'read it again; a slip of unit or a changed light shows like this.',
    });
    return undefined;
  }
  return {
    factor,
    notes: [
      `the readings scatter ${factor.toFixed(1)} times more than their errors allow, most of all ${what}; the intervals are widened by that`,
    ],
  };
}

/**
 * An unknown that cannot be below 0, with its 90 percent interval; factor as reducedChiSquare gives it.
 */
export function boundsOf({ values, errors }: LeastSquaresFit, at: number, factor: number) {
  const half = STANDARD_ERRORS_90 * factor * errors[at]!;
  return { value: values[at]!, low: Math.max(0, values[at]! - half), high: values[at]! + half };
}

/**
 * The fit again with an unknown that cannot be below 0 held at the mean of what its readings leave possible;
 * undefined where they tell it from 0.
 *
 * in: fit; at, the unknown; factor, as reducedChiSquare gives it
 */
export function heldAboveZero(fit: ReadingsFit, at: number, factor: number): ReadingsFit | undefined {
  const [value, error] = [fit.values[at]!, fit.errors[at]!];
  if (value > STANDARD_ERRORS_90 * factor * error) return undefined;
  const held = { at, value: truncatedNormalMean(value, error * factor), error: error * 1e-4 };
  return fitReadings({ ...fit.bench, priors: [...fit.bench.priors, held] });
}

/**
 * Mean of a normal quantity that is known to be above 0, in its own unit: what is left possible of an estimate that
 * may lie at or below 0.
 *
 * in: value, the estimate; error, its standard error, above 0
 * source: JCGM100 (knowledge beforehand)
 * @example truncatedNormalMean(0, 1); // => 0.79788
 */
export function truncatedNormalMean(value: number, error: number): number {
  const ratio = value / error;
  const density = exp((-ratio * ratio) / 2) / Math.sqrt(2 * Math.PI);
  const share = (1 + erf(ratio / Math.SQRT2)) / 2;
  // Far below 0 the share cancels out; the mean is then nearly error / |ratio|.
  return share < 1e-5 ? error / Math.abs(ratio) : value + (error * density) / share;
}
