import { fixOf, InputProblem } from '../../common/InputProblem.ts';
import { classifyCell } from './classifyCell.ts';
import type { DetectedFormat } from './DetectedFormat.ts';
import type { SplitSample } from './detectDialect.ts';
import { findStamps } from './findStamps.ts';
import { normaliseHeading } from './normaliseHeading.ts';

/** Words over a column that names records. Common practice, no source. */
const STATION_WORDS =
  /\b(station\w*|site\w*|location|loc|place|sensor\w*|probe|logger|device|node|channel|record|series|plot|garden|ort|standort|messstelle|geber|name|id|nr|no|stacja|estacion|stazione|stasjon|asema|stanice|variable|parameter|quantity)\b/;
/** Records of one file: so many at most, each with so many rows of the sample, this many times in common. */
const RECORDS = { most: 60, rows: 12, shared: 12 } as const;

/**
 * The rows of one record, where a file holds several side by side: a column names them, and they share their times.
 *
 * in: file, name for messages; split, rows of all files; wanted, the record the user means
 * out: its rows, all where there is one record, and the column that names it
 * throws: WEATHER_AMBIGUOUS with the names to choose from; WEATHER_COLUMN_MISSING where no record bears the name
 */
export function oneStation(
  file: string,
  split: SplitSample,
  wanted?: string,
): { split: SplitSample; station?: DetectedFormat['station'] } {
  if (wanted !== undefined) return stated(file, split, wanted);
  for (const { column, groups } of namings(split)) {
    if (!shareTimes(file, split, groups)) continue;
    throw new InputProblem({
      code: 'WEATHER_AMBIGUOUS',
      file,
      ...place(split, column),
      got: `${groups.size} records in one file, told apart by ${headingOf(split, column)}: ${quoted(groups)}`,
      expected: 'one record',
      ...choices(groups),
    });
  }
  return { split };
}

function stated(file: string, split: SplitSample, wanted: string): ReturnType<typeof oneStation> {
  const plain = wanted.trim().toLowerCase();
  const list = [...namings(split)];
  for (const { column, groups } of list) {
    const name = [...groups.keys()].find((known) => known.toLowerCase() === plain);
    if (name !== undefined) return { split: part(split, groups.get(name)!), station: { column, name } };
  }
  const best = list[0];
  throw new InputProblem({
    code: 'WEATHER_COLUMN_MISSING',
    file,
    field: wanted,
    got: best === undefined ? 'no column that names stations' : `the records ${quoted(best.groups)}`,
    expected: `rows of "${wanted}"`,
    ...(best === undefined ? { fix: 'leave --station out.' } : choices(best.groups)),
  });
}

interface Naming {
  column: number;
  /** Rows of each name, in the order in which they come. */
  groups: Map<string, number[]>;
}

/** Columns that could name records, those whose heading says so first. */
function namings(split: SplitSample): Naming[] {
  const found: (Naming & { said: boolean })[] = [];
  const said = (column: number) =>
    STATION_WORDS.test(normaliseHeading(split.layout.headings[column] ?? '').replaceAll('_', ' '));
  for (let column = 0; column < split.layout.width; column++) {
    const groups = groupsOf(split, column, said(column));
    if (groups !== undefined) found.push({ column, groups, said: said(column) });
  }
  return found.sort((a, b) => Number(b.said) - Number(a.said));
}

/** Rows by the name in a column; undefined where it holds too many names, or figures without a word on them. */
function groupsOf({ rows }: SplitSample, column: number, said: boolean): Naming['groups'] | undefined {
  const groups = new Map<string, number[]>();
  for (const [r, cells] of rows.entries()) {
    const name = (cells[column] ?? '').trim();
    const group = groups.get(name);
    if (group !== undefined) group.push(r);
    else if (groups.size === RECORDS.most) return undefined;
    else groups.set(name, [r]);
  }
  for (const [name, list] of groups) if (name === '' || list.length < RECORDS.rows) groups.delete(name);
  const words = [...groups.keys()].every((name) => /^(word)$/.test(classifyCell(name)));
  return groups.size > 1 && (words || said) ? groups : undefined;
}

/** The times of one record come again in another, while each record by itself has each time once. */
function shareTimes(file: string, split: SplitSample, groups: Naming['groups']): boolean {
  const [a, b] = [...groups.values()].sort((x, y) => y.length - x.length).slice(0, 2);
  try {
    const [times, others] = [a!, b!].map((rows) => findStamps(file, part(split, rows)).wall_ms);
    const seen = new Set(times);
    const shared = others!.filter((ms) => seen.has(ms)).length;
    return shared >= RECORDS.shared && seen.size > 0.95 * times!.length;
  } catch (error) {
    if (error instanceof InputProblem) return false;
    throw error;
  }
}

function part(split: SplitSample, rows: readonly number[]): SplitSample {
  return { ...split, rows: rows.map((r) => split.rows[r]!), lines: rows.map((r) => split.lines[r]!) };
}

function place({ layout }: SplitSample, column: number): { line?: number; field?: string } {
  return {
    ...(layout.headingLine === undefined ? {} : { line: layout.headingLine }),
    ...(layout.headings[column] ? { field: layout.headings[column] } : {}),
  };
}

function headingOf({ layout }: SplitSample, column: number): string {
  return layout.headings[column] ? `column "${layout.headings[column]}"` : `column ${column + 1}`;
}

function quoted(groups: Naming['groups']): string {
  const names = [...groups.keys()];
  return `${names
    .slice(0, 8)
    .map((name) => `"${name}"`)
    .join(', ')}${names.length > 8 ? ', ...' : ''}`;
}

function choices(groups: Naming['groups']): ReturnType<typeof fixOf> {
  const typed = [...groups.keys()].map((name) => `--station ${/[^\w./-]/.test(name) ? `"${name}"` : name}`);
  return fixOf(typed.slice(0, 8));
}
