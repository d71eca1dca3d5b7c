import { InputProblem } from '../common/InputProblem.ts';

/**
 * A command line that cannot be understood, as bad input.
 *
 * in: got, what was typed; expected, what could stand there; fix, the likely fix
 * out: the error, to be thrown
 */
export function usageMistake(got: string, expected: string, fix: string): InputProblem {
  return new InputProblem({ code: 'USAGE', file: 'command line', got, expected, fix });
}
