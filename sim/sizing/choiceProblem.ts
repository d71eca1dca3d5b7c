import type { Problem } from '../common/InputProblem.ts';
import type { Choice, Scenario } from '../scenario/Scenario.ts';

/** A choice by its section and key, as 'capacitor.capacitance_F' or 'spot'. */
export function choiceKey({ section, key }: Pick<Choice, 'section' | 'key'>): string {
  return key === '' ? section : `${section}.${key}`;
}

/** A problem with the place of a choice in the scenario's file. */
export function choiceProblem(
  { file }: Pick<Scenario, 'file'>,
  choice: Choice,
  problem: Pick<Problem, 'code' | 'got' | 'expected' | 'fix'>,
): Problem {
  const { line, column } = choice;
  const place = line === undefined || column === undefined ? {} : { line, column };
  const fix = problem.fix === undefined || /[.?!]$/.test(problem.fix) ? problem.fix : `${problem.fix}.`;
  return { ...problem, fix, file, ...place, field: `choices.${choiceKey(choice)}` };
}
