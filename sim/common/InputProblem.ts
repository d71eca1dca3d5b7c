import { visibleLine } from './visibleText.ts';

/**
 * The one table of codes a bad input can carry, each with what it stands for.
 * A test makes every one of them happen.
 */
export const PROBLEM_CODES = {
  FILE_MISSING: 'the file is not there',
  FILE_UNREADABLE: 'the file cannot be opened (a folder, or no permission)',
  FILE_EMPTY: 'the file holds nothing to read',
  FILE_TRUNCATED: 'the file ends in the middle of a row',
  FILE_NOT_TEXT: 'the file is not text',
  FILE_TOO_LARGE: 'the file, a line of it or its columns are more than is read',
  YAML_SYNTAX: 'the YAML cannot be parsed',
  YAML_DUPLICATE_KEY: 'a key stands twice in one map',
  SCENARIO_UNKNOWN_KEY: 'a key the scenario does not know',
  SCENARIO_MISSING_KEY: 'a key the scenario needs',
  SCENARIO_WRONG_TYPE: 'a value of the wrong type',
  SCENARIO_OUT_OF_RANGE: 'a value outside its range',
  SCENARIO_WRONG_UNIT: 'a known key with another unit, or a value in one that its key cannot take',
  SCENARIO_UNKNOWN_PART: 'a part that neither the library nor the own parts hold',
  SCENARIO_CONFLICT: 'two values that cannot both hold',
  WEATHER_COLUMN_MISSING: 'a column the file does not have',
  WEATHER_STAMP_UNREADABLE: 'a stamp that is not a time',
  WEATHER_GAP: 'missing rows or values',
  WEATHER_DUPLICATE: 'two rows for one time',
  WEATHER_DISORDER: 'rows that go back in time',
  WEATHER_VALUE_NOT_NUMBER: 'a value that is not a number',
  WEATHER_VALUE_OUT_OF_RANGE: 'a value that cannot be',
  WEATHER_SUN_DOWN: 'radiation while the sun is down',
  WEATHER_CLOCK: 'a clock that disagrees with the sun',
  WEATHER_AMBIGUOUS: 'a file that can be read in more than one way',
  WEATHER_PARTIAL_YEAR: 'too little of a record to run over',
  SPOT_PROFILE: 'a horizon profile or shading trace that cannot be',
  SPOT_GEOMETRY: 'an obstacle that cannot stand so',
  LAMP_CUTOFF_ABOVE_REACHABLE: 'a lamp whose capacitor cannot reach its cut-off',
  FIT_UNDETERMINED: 'readings that do not settle the unknowns',
  USAGE: 'a command line that cannot be understood',
} as const;

export type ProblemCode = keyof typeof PROBLEM_CODES;

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
  field?: string | undefined;
  got: string;
  /** How many more like it there are, that are not listed. */
  more?: number;
  expected: string;
  fix?: string | undefined;
  /** Pieces of a command line that each answer it, as `--zone +01:00 --marks end`; `fix` says them too (`fixOf`). */
  typed?: readonly string[];
}

/**
 * A fix that is typed: the pieces of command line, and the sentence that offers them.
 *
 * in: typed, the likeliest first; more, what else to say after them
 * out: both, to be spread into a problem
 * @example fixOf(['--marks end', '--marks start'], ' (in a scenario, weather.marks).').fix; // => '--marks end, or --marks start (in a scenario, weather.marks).'
 */
export function fixOf(typed: readonly string[], more = '.'): Pick<Problem, 'fix' | 'typed'> {
  return { fix: `${typed.join(', or ')}${more}`, typed };
}

/**
 * Bad input. Carries every problem found, so that a maker corrects a file in one go.
 * Library code throws it; only the command line prints it (exit code 2).
 */
export class InputProblem extends Error {
  readonly problems: readonly Problem[];

  /** What had been understood of the file until then, in words; '' where nothing. */
  readonly understood: string;

  /** @param problems at least one, in the order of the file */
  constructor(problems: Problem | readonly Problem[], understood = '') {
    const list = Array.isArray(problems) ? (problems as readonly Problem[]) : [problems as Problem];
    const before = understood === '' ? '' : `\nUnderstood so far: ${cut(visibleLine(understood), MOST.got)}.`;
    super(`${list.map(describeProblem).join('\n')}${before}`);
    this.name = 'InputProblem';
    this.problems = list;
    this.understood = understood;
  }
}

/** Characters that a message shows at most of what a file brings along. */
const MOST = { field: 100, got: 300, expected: 600, fix: 600 };

/**
 * A place in a file, as terminals and editors follow it.
 *
 * in: file; line, column, 1-based, where they are known
 * @example placeText('garden.yaml', 12, 5); // => 'garden.yaml:12:5'
 */
export function placeText(file: string, line?: number, column?: number): string {
  return [file, ...(line === undefined ? [] : [line, column ?? []].flat())].join(':');
}

/** The message of one problem, two lines, in which everything is seen: code and place; found, expected and fix. */
export function describeProblem(problem: Problem): string {
  const { file, line, column } = problem;
  const short = (part: keyof typeof MOST) => cut(visibleLine(problem[part] ?? ''), MOST[part]);
  const place = [
    file === undefined ? line !== undefined && `line ${line}` : placeText(visibleLine(file), line, column),
    problem.field !== undefined && `"${short('field')}"`,
  ]
    .filter(Boolean)
    .join(', ');
  const more = problem.more === undefined ? '' : ` ... and ${problem.more} more like it`;
  const fix = problem.fix === undefined ? '' : ` Fix: ${short('fix')}`;
  return `${problem.code}  ${place}\n  got ${short('got')}${more}; expected ${short('expected')}.${fix}`;
}

/** A text of so many characters at most, the last of them dots where it is cut. */
function cut(text: string, most: number): string {
  return text.length > most ? `${text.slice(0, most - 3).replace(/[\ud800-\udbff]$/, '')}...` : text;
}

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
  fix?: string | undefined;
}

/** Takes a problem; the caller goes on, so that all are found. */
export type Report = (problem: ValueProblem) => void;

/** A report of problems with paths below a section of what another report is about. */
export function reportBelow(report: Report, ...above: readonly (string | number)[]): Report {
  return (problem) => report({ ...problem, path: [...above, ...problem.path] });
}

/** What a maker gives, or undefined where it reported a problem on the way. */
export function unlessReported<Made>(
  report: Report,
  make: (report: Report) => Made | undefined,
): Made | undefined {
  let sound = true;
  const made = make((problem) => {
    sound = false;
    report(problem);
  });
  return sound ? made : undefined;
}

/**
 * Reports each value that a part lacks; true where there is one.
 * in: section, of a part; keys it needs; part, one of the library that has them; report
 */
export function lacksValues<Key extends string>(
  section: { readonly [key in Key]?: unknown },
  keys: readonly Key[],
  part: string,
  report: Report,
): boolean {
  const missing = keys.filter((key) => section[key] === undefined);
  for (const key of missing) {
    report({
      code: 'SCENARIO_MISSING_KEY',
      path: [key],
      got: 'nothing',
      expected: 'a datasheet value, a library part, or raw model parameters',
      fix: `add ${key}, or part: ${part}`,
    });
  }
  return missing.length > 0;
}
