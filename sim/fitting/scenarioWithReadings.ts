import { nearestWord } from '../common/hints.ts';
import { InputProblem } from '../common/InputProblem.ts';
import { MOST_OF_A_CODE, problemList } from '../common/problemList.ts';
import { type LampSection, lampSchema } from '../lamp/schema.ts';
import { settleLamp } from '../lamp/settleLamp.ts';
import { issueProblems } from '../scenario/issueProblems.ts';
import { valueAt } from '../scenario/paths.ts';
import { readQuantities } from '../scenario/readQuantities.ts';
import type { Scenario } from '../scenario/Scenario.ts';
import { misspelt, type SchemaProblem } from '../scenario/unknownKey.ts';
import type { NamedBytes } from '../tables/TableSource.ts';
import { type BenchRow, benchCsv } from './benchCsv.ts';

const PARTS = ['cell', 'diode', 'capacitor', 'driver', 'led', 'jar'] as const;

type Step = string | number;

const NO_GAP = 'count the places in the list from 1 without a gap.';

/**
 * One lamp of a scenario with bench readings from a CSV file; those of a part take the place of the scenario's.
 *
 * in: scenario; file, name and bytes; wanted, the lamp, where the scenario has several
 * out: the scenario with that lamp alone
 * throws: what `benchCsv` throws; USAGE where the lamp is not clear; SCENARIO_* and FIT_UNDETERMINED for readings that
 *   cannot be, with the line of the file
 */
export function scenarioWithReadings(scenario: Scenario, file: NamedBytes, wanted?: string): Scenario {
  const lamp = chosen('lamp', scenario.lamps, wanted);
  const rows = benchCsv(file, PARTS);
  const given: Record<string, unknown> = { ...lamp.section };
  for (const part of PARTS) {
    const own = rows.filter((row) => row.part === part);
    if (own.length > 0) given[part] = { ...lamp.section[part], readings: nested(own, file.name) };
  }
  const problems: SchemaProblem[] = [];
  const written = { lamps: { [lamp.name]: given } };
  const { value: root } = readQuantities(written);
  const parsed = lampSchema.safeParse(valueAt(root, ['lamps', lamp.name]));
  if (!parsed.success) {
    problems.push(
      ...issueProblems(parsed.error.issues, root, written, ['lamps', lamp.name]).map((problem) => ({
        ...problem,
        path: problem.path.slice(2),
      })),
    );
  }
  const section: LampSection = parsed.success ? parsed.data : lamp.section;
  const settled = settleLamp(section, (problem) => problems.push(problem));
  if (problems.length > 0 || settled === undefined) {
    const isMisspelt = misspelt(problems);
    const list = problemList(MOST_OF_A_CODE);
    for (const problem of problems.filter((each) => !isMisspelt(each))) {
      list.add(problem.code, () => {
        const { path, meant: _, ...rest } = problem;
        const isGap = typeof path.at(-1) === 'number' && rest.code === 'SCENARIO_MISSING_KEY';
        return { ...rest, ...(isGap ? { fix: NO_GAP } : {}), ...placeOf(path, rows), file: file.name };
      });
    }
    throw new InputProblem(list.list());
  }
  return { ...scenario, lamps: [{ ...lamp, ...settled, section, flags: [] }] };
}

/** The lamp or spot of a scenario that a file belongs to; problem: USAGE where that is not clear. */
export function chosen<Item extends { name: string }>(
  kind: 'lamp' | 'spot',
  items: readonly Item[],
  wanted: string | undefined,
): Item {
  const found = wanted === undefined ? undefined : items.find(({ name }) => name === wanted);
  if (found !== undefined) return found;
  if (wanted === undefined && items.length === 1) return items[0]!;
  const names = items.map(({ name }) => name);
  const near = wanted === undefined ? undefined : nearestWord(wanted, names);
  throw new InputProblem({
    code: 'USAGE',
    file: 'command line',
    got:
      wanted === undefined
        ? `no --${kind}, and ${items.length} ${kind}s it may be of`
        : `--${kind} ${wanted}`,
    expected: `--${kind} and one of ${names.join(', ')}`,
    fix: `--${kind} ${near ?? names[0]}.`,
  });
}

/** Rows as the maps and lists that their keys describe. */
function nested(rows: readonly BenchRow[], file: string): unknown {
  const root: Record<Step, unknown> = {};
  for (const { path, value, line } of rows) {
    let at = root;
    path.forEach((step, k) => {
      if (k === path.length - 1 && !Object.hasOwn(at, step)) {
        at[step] = value;
        return;
      }
      const below = Object.hasOwn(at, step) ? at[step] : typeof path[k + 1] === 'number' ? [] : {};
      if (typeof below !== 'object' || k === path.length - 1) {
        throw new InputProblem({
          code: 'SCENARIO_CONFLICT',
          file,
          line,
          field: 'key',
          got: 'a key that another row uses both as a number and as a list or map',
          expected: 'keys as scenarios have them below readings',
          fix: 'see scenarios/bench-readings.yaml.',
        });
      }
      at[step] = below;
      at = below as Record<Step, unknown>;
    });
  }
  return root;
}

/** The row that shares most of a path, as the file has it. */
function placeOf(path: readonly Step[], rows: readonly BenchRow[]): { line: number; field: string } {
  const shared = ({ part, path: own }: BenchRow) => {
    const full = [part, 'readings', ...own];
    const end = full.findIndex((step, i) => step !== path[i]);
    return end < 0 ? full.length : end;
  };
  const row = rows.reduce((best, some) => (shared(some) > shared(best) ? some : best));
  const named = path.filter((step, i) => !(i === 1 && step === 'readings'));
  const field = named.map((step) => (typeof step === 'number' ? step + 1 : step)).join('.');
  return { line: row.line, field };
}
