import { STANDARD_ERRORS_90 } from './Estimate.ts';
import type { Report } from './InputProblem.ts';
import type { LeastSquaresFit } from './leastSquares.ts';

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
 * in: solved; readings, in the order of its residuals; report, takes readings that cannot belong to one part; part,
 *   in words
 * out: the factor with a note; undefined after a problem
 * source: JCGM100 (errors widened by the scatter where it is larger)
 */
export function reducedChiSquare(
  solved: LeastSquaresFit,
  readings: readonly { what: string; unit: string; measured: number; path: readonly (string | number)[] }[],
  report: Report,
  part: string,
): Scatter | undefined {
  const { residuals, sumOfSquares, freedom } = solved;
  if (freedom === 0) return { factor: 1, notes: [] };
  const ratio = sumOfSquares / freedom;
  const usual = 1 + 2 * STANDARD_ERRORS_90 * Math.sqrt(2 / freedom);
  if (ratio <= usual) return { factor: 1, notes: [] };
  const worst = readings.reduce(
    (at, _, i) => (Math.abs(residuals[i]!) > Math.abs(residuals[at]!) ? i : at),
    0,
  );
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
