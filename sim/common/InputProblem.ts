import type { ProblemCode } from './problemCodes.ts';

/** One thing wrong with an input: where, what was found, what was expected, the likely fix. */
export interface Problem {
  code: ProblemCode;
  /** File as the user named it. */
  file?: string;
  /** 1-based line (YAML, CSV). */
  line?: number;
  /** 1-based column of a YAML line, or 1-based field number of a CSV row. */
  column?: number;
  /** Key path of a scenario ("lamps.single.capacitor.part") or heading of a CSV column. */
  field?: string;
  got: string;
  expected: string;
  fix?: string;
}

/**
 * Bad input. Carries every problem found, so that a maker corrects a file in one go.
 * Library code throws it; only the command line prints it (exit code 2).
 */
export class InputProblem extends Error {
  readonly problems: readonly Problem[];

  /** @param problems at least one, in the order of the file */
  constructor(problems: Problem | readonly Problem[]) {
    const list = Array.isArray(problems) ? (problems as readonly Problem[]) : [problems as Problem];
    super(list.map(describeProblem).join('\n'));
    this.name = 'InputProblem';
    this.problems = list;
  }
}

/** The message of one problem, two lines: code and place; found, expected and fix. */
export function describeProblem(problem: Problem): string {
  const place = [
    problem.file ?? '',
    problem.line === undefined
      ? ''
      : `line ${problem.line}${problem.column === undefined ? '' : `, column ${problem.column}`}`,
    problem.field === undefined ? '' : `"${problem.field}"`,
  ]
    .filter((word) => word !== '')
    .join(', ');
  const fix = problem.fix === undefined ? '' : ` Fix: ${problem.fix}`;
  return `${problem.code}  ${place}\n  got ${problem.got}; expected ${problem.expected}.${fix}`;
}
