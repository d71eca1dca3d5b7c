import { type Fineness, type LeastValues, leastValues, type Unknown } from './leastValues.ts';

/** What is known of an unknown beforehand: which, its value and standard deviation. */
export interface Prior {
  at: number;
  value: number;
  error: number;
}

/** One reading of a part. */
export interface Reading {
  what: string;
  unit: string;
  /** Key path below the part's section. */
  path: readonly (string | number)[];
  measured: number;
  /** Standard deviation, without what all readings of a meter share. */
  error: number;
}

/** A part at the bench: its unknowns, what is known of them beforehand, and its readings. */
export interface Bench {
  unknowns: readonly Unknown[];
  priors: readonly Prior[];
  readings: readonly Reading[];
  /** Fills what each reading would be, for given unknowns. */
  shownInto: (target: Float64Array, values: readonly number[]) => void;
}

/**
 * The unknowns of a part that lie nearest to its readings and to what is known of them beforehand.
 *
 * in: bench; fineness, as leastValues takes it
 * out: values and residuals: readings first, then priors
 * source: JCGM100 (what is known beforehand counts as a reading)
 */
export function nearestValues(bench: Bench, fineness?: Fineness): LeastValues {
  const { unknowns, priors, readings } = bench;
  const residualsInto = (target: Float64Array, values: readonly number[]) => {
    bench.shownInto(target, values);
    readings.forEach(({ measured, error }, i) => {
      target[i] = (target[i]! - measured) / error;
    });
    priors.forEach(({ at, value, error }, i) => {
      target[readings.length + i] = (values[at]! - value) / error;
    });
  };
  return leastValues(unknowns, readings.length + priors.length, residualsInto, fineness);
}
