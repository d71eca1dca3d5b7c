import type { TruthCase } from './TruthCase.ts';

export interface Measured {
  truth: TruthCase;
  got: number;
  off: number;
  holds: boolean;
}

/** Cases by what their result is good for. */
export interface Sorted {
  /** A miss fails the tests. */
  gated: Measured[];
  /** A miss is shown. */
  facts: Measured[];
  /** What was put in: neither holds nor misses. */
  inputs: Measured[];
}

/** Runs every case once. The gate and the printed table share this, so that they cannot disagree. */
export function measure(cases: readonly TruthCase[]): Measured[] {
  return cases.map((truth) => {
    const got = truth.compute();
    const off = got - truth.expected;
    return { truth, got, off, holds: Math.abs(off) <= truth.tolerance };
  });
}

export function sorted(all: readonly Measured[]): Sorted {
  const checks = all.filter(({ truth }) => truth.status !== 'input');
  return {
    gated: checks.filter(({ truth }) => truth.reportOnly !== true),
    facts: checks.filter(({ truth }) => truth.reportOnly === true),
    inputs: all.filter(({ truth }) => truth.status === 'input'),
  };
}
