import { createHash } from 'node:crypto';
import { nearestWord } from '../common/hints.ts';
import { InputProblem } from '../common/InputProblem.ts';
import { type ProblemList, problemList } from '../common/problemList.ts';
import { HOUR_MS, utcText } from '../common/time.ts';
import { type CsvRows, columnPlaces, csvRows, findHeading } from '../tables/csvRows.ts';
import { decodeText } from '../tables/decodeText.ts';
import { missingTest, parseNumber, quotedCell } from '../tables/parseNumber.ts';
import { parseStamp, stampTimes } from '../tables/stampReader.ts';
import { parseOffset } from '../tables/stampStyles.ts';
import type { NamedBytes } from '../tables/TableSource.ts';
import { toCanonical, UNITS, type UnitName } from '../tables/units.ts';
import { hourGrid } from './hourGrid.ts';

const MARK_SHIFT_MS = { start: 0, middle: HOUR_MS / 2, end: HOUR_MS } as const;

/** Which columns of a file hold what, and how its stamps are meant. */
export interface HourlyMapping {
  stamp: { column: string; zone: string; marks: 'start' | 'middle' | 'end' };
  /** Our name of each column, its heading in the file and its unit (a name of the units table). */
  columns: Record<string, { column: string; unit: string }>;
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
  /** Style the stamps are written in, in words. */
  stampStyle: string;
  /** Zone the stamps were read in, in words. */
  stampZone: string;
}

/** What a file gave: its hours where they follow each other (NaN where a value is bad), and all its problems. */
export interface HourlyExamination {
  series: HourlySeries | undefined;
  problems: ProblemList;
}

/**
 * Hours of a CSV file under an explicit mapping, with everything that is wrong with them. For callers that have
 * checks of their own to add; others take readHourlySeries, which throws.
 *
 * in: file, name and bytes; mapping
 * out: hours and problems
 * throws: FILE_EMPTY, FILE_NOT_TEXT, SCENARIO_WRONG_UNIT, SCENARIO_WRONG_TYPE, WEATHER_COLUMN_MISSING, WEATHER_AMBIGUOUS
 */
export function examineHourlyCsv(file: NamedBytes, mapping: HourlyMapping): HourlyExamination {
  const problems = problemList();
  const { text } = decodeText(file);
  const zone_ms = parseOffset(mapping.stamp.zone);
  const names = Object.keys(mapping.columns);
  const units = names.map((name) => unitOf(name, mapping.columns[name]!.unit, problems));
  if (Number.isNaN(zone_ms)) {
    problems.add('zone', () => ({
      code: 'SCENARIO_WRONG_TYPE',
      field: 'stamp.zone',
      got: `"${mapping.stamp.zone}"`,
      expected: 'UTC or a fixed offset such as +01:00',
      fix: 'give the offset of standard time; stamps with daylight saving must be exported in UTC.',
    }));
  }
  const headings = [mapping.stamp.column, ...names.map((name) => mapping.columns[name]!.column)];
  const heading = findHeading(text, headings);
  const places = columnPlaces(file.name, headings, heading, problems);
  problems.throwIfAny();

  const rows = csvRows(file.name, text, heading, places, problems);
  if (rows.line.length === 0) {
    problems.throwIfAny();
    throw new InputProblem({
      code: 'FILE_EMPTY',
      file: file.name,
      line: heading.line,
      got: 'a heading row and nothing below it',
      expected: 'one row an hour',
      fix: 'export it again.',
    });
  }
  const stamps = rows.cells[0]!;
  const where = { file: file.name, field: headings[0]!, column: places[0]! + 1 };
  const { times, style } = stampTimes(where, stamps, rows.line, zone_ms, problems);
  const time_ms = times.map((time) => time - MARK_SHIFT_MS[mapping.stamp.marks]);
  const columns: Record<string, Float64Array> = {};
  names.forEach((name, c) => {
    const place = { heading: headings[c + 1]!, column: places[c + 1]! + 1, unit: units[c]! };
    columns[name] = readColumn(file.name, rows, c + 1, time_ms, place, mapping.missing, problems);
  });
  const grid = hourGrid(file.name, headings[0]!, time_ms, rows.line, problems);
  if (grid === undefined) return { series: undefined, problems };
  const sha256 = createHash('sha256').update(file.bytes).digest('hex');
  const ownZone = parseStamp(stamps[0]!, style!, 0) === parseStamp(stamps[0]!, style!, HOUR_MS);
  const stampZone = ownZone ? 'as each stamp states' : mapping.stamp.zone;
  const line = Uint32Array.from(rows.line);
  return { series: { ...grid, columns, sha256, line, stampStyle: style!.name, stampZone }, problems };
}

/** One column in its canonical unit; NaN where a value is missing or no number, which is reported. */
function readColumn(
  file: string,
  rows: CsvRows,
  index: number,
  time_ms: readonly number[],
  place: { heading: string; column: number; unit: UnitName },
  missing: readonly string[],
  problems: ProblemList,
): Float64Array {
  const isMissing = missingTest(missing);
  const cells = rows.cells[index]!;
  const values = new Float64Array(cells.length);
  const where = { file, field: place.heading, column: place.column };
  let gapStart = -1;
  for (let row = 0; row <= cells.length; row++) {
    const text = cells[row];
    const value = text === undefined ? Number.NaN : parseNumber(text);
    const lacks = text !== undefined && isMissing(text, value);
    if (lacks && gapStart < 0) gapStart = row;
    if (!lacks && gapStart >= 0) {
      const first = gapStart;
      const hours = row - first;
      problems.add(`missing ${place.heading}`, () => ({
        ...where,
        code: 'WEATHER_GAP',
        line: rows.line[first]!,
        got: `no values ${spanText(time_ms[first]!, time_ms[row - 1]!)} (${hours} ${hours === 1 ? 'hour' : 'hours'}, lines ${rows.line[first]} to ${rows.line[row - 1]})`,
        expected: 'a value for every hour',
        fix: 'take another file or other years, or fill the hours by hand and say so.',
      }));
      gapStart = -1;
    }
    if (text === undefined) break;
    values[row] = lacks ? Number.NaN : toCanonical(value, place.unit, 3600);
    if (Number.isNaN(value) && !lacks) {
      problems.add(`not a number ${place.heading}`, () => ({
        ...where,
        code: 'WEATHER_VALUE_NOT_NUMBER',
        line: rows.line[row]!,
        got: quotedCell(text),
        expected: `a number in ${place.unit}`,
        fix: notNumberFix(text),
      }));
    }
  }
  return values;
}

function spanText(from_ms: number, last_ms: number): string {
  if (Number.isNaN(from_ms) || Number.isNaN(last_ms)) return 'in rows whose stamp cannot be read';
  return `from ${utcText(from_ms)} to ${utcText(last_ms + HOUR_MS)}`;
}

function notNumberFix(text: string): string {
  if (/^[+-]?\d+,\d+$/.test(text)) return 'write decimals with a point.';
  return `if it stands for 'missing', add ${JSON.stringify(text)} to weather.missing.`;
}

function unitOf(name: string, unit: string, problems: ProblemList): UnitName {
  if (Object.hasOwn(UNITS, unit)) return unit as UnitName;
  const known = Object.keys(UNITS);
  const near = nearestWord(unit.replace('²', '2'), known);
  problems.add('unit', () => ({
    code: 'SCENARIO_WRONG_UNIT',
    field: `columns.${name}.unit`,
    got: `"${unit}"`,
    expected: `one of ${known.join(', ')}`,
    fix: near === undefined ? 'take one of these.' : `did you mean "${near}"?`,
  }));
  return 'W/m2';
}
