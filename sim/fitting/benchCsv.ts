import { InputProblem, type Problem } from '../common/InputProblem.ts';
import { fewProblems } from '../common/problemList.ts';
import { saysQuantity } from '../scenario/writtenQuantity.ts';
import { cellRows, findHeading } from '../tables/csvRows.ts';
import { decodeText } from '../tables/decodeText.ts';
import { parseNumber, quotedCell } from '../tables/parseNumber.ts';
import type { NamedBytes } from '../tables/TableSource.ts';

/** One row of a file of bench readings. */
export interface BenchRow {
  /** 1-based. */
  line: number;
  part: string;
  /** Below the part's readings; places in lists from 0. */
  path: (string | number)[];
  /** A number, or a text with one and its unit. */
  value: number | string;
}

const COLUMNS = ['part', 'key', 'value'] as const;
const STEP = /^(?:[A-Za-z]\w*|[1-9]\d?)$/;

/**
 * Bench readings of one lamp's parts from a CSV file with the columns part, key and value: the key is that of the
 * part's readings, places in lists counted from 1 and set off by points, as in lights.1.short_circuit_mA.
 *
 * in: file, name and bytes; parts, that a lamp has
 * out: its rows, in the order of the file
 * throws: FILE_EMPTY, FILE_NOT_TEXT, FILE_TRUNCATED, WEATHER_COLUMN_MISSING, WEATHER_VALUE_NOT_NUMBER,
 *   SCENARIO_UNKNOWN_KEY, SCENARIO_CONFLICT for a key that stands twice; all of a file together
 */
export function benchCsv(file: NamedBytes, parts: readonly string[]): BenchRow[] {
  const text = decodeText(file);
  const heading = findHeading(text, COLUMNS);
  const places = COLUMNS.map((column) => heading.cells.indexOf(column));
  const missing = COLUMNS.filter((_, k) => places[k]! < 0);
  if (missing.length > 0) {
    throw new InputProblem({
      code: 'WEATHER_COLUMN_MISSING',
      file: file.name,
      line: heading.line,
      field: missing.join(', '),
      got: `the columns ${heading.cells.map(quotedCell).join(', ')}`,
      expected: 'the columns part, key and value',
      fix: 'begin with the line part,key,value; a row is then cell,lights.1.short_circuit_mA,427.',
    });
  }
  const problems: Problem[] = [];
  const seen = new Map<string, number>();
  const rows = cellRows(file.name, text, heading).flatMap(({ cells, line }): BenchRow[] => {
    const [part, key, value] = places.map((place) => cells[place] ?? '') as [string, string, string];
    const problem = rowProblem({ part, key, value }, parts, cells.length > heading.cells.length);
    const twice = seen.get(`${part}.${key}`);
    if (problem !== undefined) problems.push({ ...problem, file: file.name, line });
    else if (twice !== undefined) {
      problems.push({
        code: 'SCENARIO_CONFLICT',
        file: file.name,
        line,
        field: 'key',
        got: `${key} of ${part} a second time, first in line ${twice}`,
        expected: 'every key once',
        fix: 'take one away, or count the place in the list on.',
      });
    } else seen.set(`${part}.${key}`, line);
    const path = key.split('.').map((step) => (/^\d/.test(step) ? Number(step) - 1 : step));
    const number = parseNumber(value);
    return [{ line, part, path, value: Number.isNaN(number) ? value : number }];
  });
  if (problems.length > 0) throw new InputProblem(fewProblems(problems));
  if (rows.length > 0) return rows;
  throw new InputProblem({
    code: 'FILE_EMPTY',
    file: file.name,
    line: heading.line,
    got: 'a heading row and nothing below it',
    expected: 'a reading in every row',
    fix: 'add rows such as cell,lights.1.short_circuit_mA,427.',
  });
}

function rowProblem(
  { part, key, value }: Readonly<Record<(typeof COLUMNS)[number], string>>,
  parts: readonly string[],
  isWide: boolean,
): Problem | undefined {
  if (!parts.includes(part)) {
    return {
      code: 'SCENARIO_UNKNOWN_KEY',
      field: 'part',
      got: quotedCell(part),
      expected: `one of ${parts.join(', ')}`,
      fix: 'write the part of the lamp that was read.',
    };
  }
  if (!key.split('.').every((step) => STEP.test(step))) {
    return {
      code: 'SCENARIO_UNKNOWN_KEY',
      field: 'key',
      got: quotedCell(key),
      expected: 'keys and places in lists, from 1, with points between',
      fix: 'as in lights.1.short_circuit_mA.',
    };
  }
  if (!isWide && (!Number.isNaN(parseNumber(value)) || saysQuantity(value))) return undefined;
  return {
    code: 'WEATHER_VALUE_NOT_NUMBER',
    field: 'value',
    got: isWide ? 'a row with more cells than the heading' : quotedCell(value),
    expected: 'one number with a decimal point, alone or with its unit',
    fix: isWide
      ? 'is there a decimal comma? Write a point.'
      : 'without a unit it is in that at the end of the key.',
  };
}
