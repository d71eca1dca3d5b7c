import { InputProblem } from '../common/InputProblem.ts';

/**
 * Refuses scenarios that cannot be told apart: their results would overwrite each other.
 *
 * in: scenarios, by name and file
 * throws: InputProblem USAGE, one problem for each name that occurs again
 */
export function distinctNames(scenarios: readonly { name: string; file: string }[]): void {
  const problems = scenarios.flatMap(({ name, file }, k) => {
    const earlier = scenarios.slice(0, k).find((other) => other.name === name);
    if (earlier === undefined) return [];
    return [
      {
        code: 'USAGE' as const,
        file: 'command line',
        got: `two scenarios named ${name}: ${earlier.file} and ${file}`,
        expected: 'a name of its own for each scenario that is compared',
        fix: earlier.file === file ? 'name the file once.' : `give one of them another name: in its file.`,
      },
    ];
  });
  if (problems.length > 0) throw new InputProblem(problems);
}
