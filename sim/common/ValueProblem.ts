import type { ProblemCode } from './problemCodes.ts';

/**
 * Something wrong with a value of the scenario, found by a stage that knows no file: the scenario stage adds
 * file, line and the full key path, and reports all problems together.
 */
export interface ValueProblem {
  code: ProblemCode;
  /** Key path below the section that was handed over, e.g. ['open_circuit_V']. */
  path: readonly (string | number)[];
  got: string;
  expected: string;
  fix?: string;
}

/** Takes a problem; the caller goes on, so that all are found. */
export type Report = (problem: ValueProblem) => void;
