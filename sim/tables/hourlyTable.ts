import { createHash } from 'node:crypto';
import type { Problem } from '../common/InputProblem.ts';
import { type ProblemList, problemList } from '../common/problemList.ts';
import { HOUR_MS, utcText } from '../common/time.ts';
import { type CsvRows, columnPlace, csvRows, findHeading } from './csvRows.ts';
import { decodeText, emptyFile } from './decodeText.ts';
import { hourGrid } from './hourGrid.ts';
import { missingTest, parseNumber, quotedCell } from './parseNumber.ts';
import { stampTimes } from './stampReader.ts';
import { parseOffset } from './stampStyles.ts';
import type { NamedBytes } from './TableSource.ts';
import { toCanonical, type UnitName } from './units.ts';

const MARK_SHIFT_MS = { start: 0, middle: HOUR_MS / 2, end: HOUR_MS } as const;

/** Which columns of a file hold what, and how its stamps are meant. */
export interface HourlyMapping {
  stamp: { column: string; zone: string; marks: 'start' | 'middle' | 'end' };
  /** Our name of each column, its heading in the file and its unit (a name of the units table). */
  columns: Record<string, { column: string; unit: UnitName }>;
  /** Codes that say 'missing'. */
  missing: readonly string[];
}

/** Hourly columns of a file, each in the canonical unit of its quantity. Row i covers the hour from start_ms + i h. */
export interface HourlySeries {
  start_ms: number;
  count: number;
  columns: Record<string, Float64Array>;
  /** SHA-256 of the file's bytes, hexadecimal. */
  sha256: string;
  /** 1-based line of each hour's row in the file, for messages. */
  line: Uint32Array;
}

/**
 * Hourly columns of a CSV file under an explicit mapping, each in the canonical unit of its quantity (W/m2 as mean
 * over the hour, degC, m, m/s, share), for tables that are no weather. Whole or not at all.
 *
 * in: file, name and bytes; mapping, which columns hold what; gaps, whether values that say 'missing' are refused or
 * come back as NaN
 * out: contiguous hours from start_ms (UTC), the start of the first one
 * throws: FILE_EMPTY, FILE_NOT_TEXT, FILE_TRUNCATED, SCENARIO_WRONG_UNIT, SCENARIO_WRONG_TYPE, WEATHER_COLUMN_MISSING,
 * WEATHER_AMBIGUOUS, WEATHER_STAMP_UNREADABLE, WEATHER_GAP, WEATHER_DUPLICATE, WEATHER_DISORDER,
 * WEATHER_VALUE_NOT_NUMBER; all problems of the file together
 * valid: one row an hour
 */
export function readHourlyTable(
  file: NamedBytes,
  mapping: HourlyMapping,
  gaps: 'refused' | 'kept' = 'refused',
): HourlySeries {
  const problems = problemList();
  const names = Object.keys(mapping.columns);
  const zone_ms = zoneOf(mapping, problems);
  const headings = [mapping.stamp.column, ...names.map((name) => mapping.columns[name]!.column)];
  const rows = namedColumns(file, headings, 'one row an hour', problems);
  const [stamps, ...cells] = rows.cells as [string[], ...string[][]];
  const [stampPlace, ...places] = headings.map((heading, c) => ({
    file: file.name,
    field: heading,
    column: rows.places[c]! + 1,
  }));
  const { times } = stampTimes(stampPlace!, stamps, rows.line, zone_ms, problems);
  const time_ms = times.map((time) => time - MARK_SHIFT_MS[mapping.stamp.marks]);
  const columns: Record<string, Float64Array> = {};
  names.forEach((name, c) => {
    const { unit } = mapping.columns[name]!;
    const { values, missing } = readColumn(places[c]!, cells[c]!, rows.line, unit, mapping, problems);
    columns[name] = values;
    if (gaps === 'refused') refuseGaps(places[c]!, missing, time_ms, rows.line, problems);
  });
  const grid = hourGrid({ ...stampPlace!, time_ms, line: rows.line }, problems);
  problems.throwIfAny();
  const sha256 = createHash('sha256').update(file.bytes).digest('hex');
  const line = Uint32Array.from(rows.line);
  return { ...grid!, columns, sha256, line };
}

/**
 * The cells under named headings of a CSV file, row by row.
 *
 * in: file, name and bytes; headings; expected, rows of what, for the message of an empty file; problems, grows
 * out: cells, lines, and the 0-based place of each column
 * throws: FILE_EMPTY, FILE_NOT_TEXT, WEATHER_COLUMN_MISSING, WEATHER_AMBIGUOUS, and what stood on the list before
 */
export function namedColumns(
  file: NamedBytes,
  headings: readonly string[],
  expected: string,
  problems: ProblemList,
): CsvRows & { places: number[] } {
  const text = decodeText(file);
  const heading = findHeading(text, headings);
  const places = headings.map((name) => columnPlace(file.name, name, heading, problems));
  problems.throwIfAny();
  const rows = csvRows(file.name, text, heading, places, problems);
  if (rows.line.length > 0) return { ...rows, places };
  problems.throwIfAny();
  throw emptyFile(file.name, 'a heading row and nothing below it', expected, heading.line);
}

/** What is wrong with a cell that holds no number. in: text; unit, in words; missingKey, where its codes are listed */
export function noNumber(
  text: string,
  unit: string,
  missingKey: string,
): Pick<Problem, 'code' | 'got' | 'expected' | 'fix'> {
  return {
    code: 'WEATHER_VALUE_NOT_NUMBER',
    got: quotedCell(text),
    expected: `a number in ${unit}`,
    fix: /^[+-]?\d+,\d+$/.test(text)
      ? 'write decimals with a point.'
      : `if it stands for 'missing', add ${JSON.stringify(text)} to ${missingKey}.`,
  };
}

type ColumnPlace = Pick<Problem, 'file' | 'field' | 'column'>;

/** One column in its canonical unit; NaN where a value is missing, and where it is no number, which is reported. */
function readColumn(
  place: ColumnPlace,
  cells: readonly string[],
  line: readonly number[],
  unit: UnitName,
  mapping: HourlyMapping,
  problems: ProblemList,
): { values: Float64Array; missing: Uint8Array } {
  const isMissing = missingTest(mapping.missing);
  const missing = new Uint8Array(cells.length);
  const values = Float64Array.from(cells, (text, row) => {
    const value = parseNumber(text);
    if (isMissing(text, value)) {
      missing[row] = 1;
      return Number.NaN;
    }
    if (Number.isNaN(value)) {
      problems.add(`not a number ${place.field}`, () => ({
        ...place,
        line: line[row]!,
        ...noNumber(text, unit, 'weather.missing'),
      }));
    }
    return toCanonical(value, unit, 3600);
  });
  return { values, missing };
}

/**
 * Puts each run of missing values on the list of problems.
 *
 * in: place of the column; missing, 1 for each row without a value; time_ms, start of the hour of each row; line of each
 */
export function refuseGaps(
  place: ColumnPlace,
  missing: Uint8Array,
  time_ms: ArrayLike<number>,
  line: ArrayLike<number>,
  problems: ProblemList,
): void {
  for (let from = missing.indexOf(1); from >= 0; ) {
    const end = missing.indexOf(0, from);
    const to = end < 0 ? missing.length : end;
    const hours = to - from;
    const first = from;
    problems.add(`missing ${place.field}`, () => ({
      ...place,
      code: 'WEATHER_GAP',
      line: line[first]!,
      got: `no values ${spanText(time_ms[first]!, time_ms[to - 1]!)} (${hours} ${hours === 1 ? 'hour' : 'hours'}, lines ${line[first]} to ${line[to - 1]})`,
      expected: 'a value for every hour',
      fix: 'take another file or other years, or fill the hours by hand and say so.',
    }));
    from = missing.indexOf(1, to);
  }
}

function spanText(from_ms: number, last_ms: number): string {
  if (Number.isNaN(from_ms) || Number.isNaN(last_ms)) return 'in rows whose stamp cannot be read';
  return `from ${utcText(from_ms)} to ${utcText(last_ms + HOUR_MS)}`;
}

function zoneOf({ stamp }: HourlyMapping, problems: ProblemList): number {
  const zone_ms = parseOffset(stamp.zone);
  if (Number.isNaN(zone_ms)) {
    problems.add('zone', () => ({
      code: 'SCENARIO_WRONG_TYPE',
      field: 'stamp.zone',
      got: `"${stamp.zone}"`,
      expected: 'UTC or a fixed offset such as +01:00',
      fix: 'give the offset of standard time; stamps with daylight saving must be exported in UTC.',
    }));
  }
  return zone_ms;
}
