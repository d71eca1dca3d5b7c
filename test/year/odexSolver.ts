import { createRequire } from 'node:module';

/** The package odex: extrapolation by Gragg, Bulirsch and Stoer, for problems that are not stiff. */
export interface OdexSolver {
  absoluteTolerance: number;
  relativeTolerance: number;
  initialStepSize: number;
  maxSteps: number;
  /**
   * Integrates y' = derivative(x, y) from x0 to x1; after every step observe is called, which ends the course by
   * returning false. outcome 0 is success, 2 an end by the observer.
   */
  solve(
    derivative: (x: number, y: number[]) => number[],
    x0: number,
    y0: number[],
    x1: number,
    observe?: (count: number, from: number, x: number, y: number[]) => boolean | undefined,
  ): { y: number[]; outcome: number };
}

// The package's own source is TypeScript that a strict compiler refuses, so that it is loaded without types.
const { Solver } = createRequire(import.meta.url)('odex') as {
  Solver: new (dimension: number) => OdexSolver;
};

export function odexSolver(dimension: number, tolerance: number): OdexSolver {
  const solver = new Solver(dimension);
  solver.absoluteTolerance = tolerance;
  solver.relativeTolerance = 0;
  solver.maxSteps = 10_000_000;
  return solver;
}
