import { InputProblem, type Problem } from './InputProblem.ts';

/** Of a file that a maker writes so many problems of a code are listed. */
export const MOST_OF_A_CODE = 10;

/** Problems of one file, those of one kind counted beyond the first few instead of listed. */
export interface ProblemList {
  /** Adds one; `make` is called only for those that are listed. `kind` groups like with like. */
  add: (kind: string, make: () => Problem) => void;
  /** All of them in the order of the file, the last listed of a kind saying how many more there are. */
  list: () => Problem[];
  /** Throws them, if there are any. */
  throwIfAny: () => void;
}

/**
 * An empty list of problems.
 *
 * in: most, how many of one kind are listed
 * out: the list
 */
export function problemList(most = 5): ProblemList {
  const kinds = new Map<string, { problems: Problem[]; count: number }>();
  const list = (): Problem[] => {
    const all = [...kinds.values()].flatMap(({ problems, count }) => {
      const more = count - problems.length;
      return problems.map((problem, i) =>
        more > 0 && i === problems.length - 1 ? { ...problem, more } : problem,
      );
    });
    return all.sort((a, b) => (a.line ?? 0) - (b.line ?? 0) || (a.column ?? 0) - (b.column ?? 0));
  };
  return {
    add: (kind, make) => {
      let group = kinds.get(kind);
      if (group === undefined) {
        group = { problems: [], count: 0 };
        kinds.set(kind, group);
      }
      group.count++;
      if (group.count <= most) group.problems.push(make());
    },
    list,
    throwIfAny: () => {
      const all = list();
      if (all.length > 0) throw new InputProblem(all);
    },
  };
}

/** These problems by line, those of a code counted beyond the first few. */
export function fewProblems(problems: readonly Problem[]): Problem[] {
  const few = problemList(MOST_OF_A_CODE);
  for (const problem of problems) few.add(problem.code, () => problem);
  return few.list();
}
