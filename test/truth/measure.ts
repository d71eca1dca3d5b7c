import type { TruthCase } from './TruthCase.ts';

export interface Measured {
  truth: TruthCase;
  got: number;
  off: number;
  holds: boolean;
}

/** Runs every case once. The gate and the printed table share this, so that they cannot disagree. */
export function measure(cases: readonly TruthCase[]): Measured[] {
  return cases.map((truth) => {
    const got = truth.compute();
    const off = got - truth.expected;
    return { truth, got, off, holds: Math.abs(off) <= truth.tolerance };
  });
}
