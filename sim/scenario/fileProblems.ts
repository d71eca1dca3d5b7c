import type { KeyPath } from '../common/document.ts';
import { InputProblem, type ValueProblem } from '../common/InputProblem.ts';
import { isMap } from './paths.ts';
import { readScenarioFile } from './scenarioFile.ts';

/**
 * Files that a scenario names and that cannot be read.
 *
 * in: value, the scenario, checked or not; folder, absolute, it lies in
 */
export function fileProblems(value: Record<string, unknown>, folder: string): ValueProblem[] {
  const problems: ValueProblem[] = [];
  const visit = (section: unknown, path: KeyPath): void => {
    if (!isMap(section)) return;
    for (const [key, below] of Object.entries(section)) {
      if (key === 'file' && typeof below === 'string' && below !== '') look(below, [...path, key]);
      else visit(below, [...path, key]);
    }
  };
  const look = (file: string, path: KeyPath): void => {
    try {
      readScenarioFile({ folder }, file);
    } catch (error) {
      if (!(error instanceof InputProblem)) throw error;
      const { code, got, fix } = error.problems[0]!;
      problems.push({
        code,
        path,
        got: `"${file}", ${got}`,
        expected: 'a file to read, its path relative to the scenario',
        ...(fix === undefined ? {} : { fix }),
      });
    }
  };
  visit(value.weather, ['weather']);
  visit(value.spots, ['spots']);
  return problems;
}
