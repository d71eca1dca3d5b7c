import { InputProblem } from '../../common/InputProblem.ts';
import { chooseStampStyle } from '../../weather/chooseStampStyle.ts';
import { csvRows } from '../../weather/csvRows.ts';
import { decodeText } from '../../weather/decodeText.ts';
import { findHeading } from '../../weather/findHeading.ts';
import { missingTest } from '../../weather/missingTest.ts';
import { parseNumber } from '../../weather/parseNumber.ts';
import { parseOffset } from '../../weather/parseOffset.ts';
import { parseStamp } from '../../weather/parseStamp.ts';
import { type ProblemList, problemList } from '../../weather/problemList.ts';
import { quotedCell } from '../../weather/quotedCell.ts';
import { toCanonical } from '../../weather/toCanonical.ts';
import type { UnitName } from '../../weather/units.ts';
import type { MeasuredLight } from './MeasuredShares.ts';

/** Readings of a light logger, as they stand in the file. */
export interface LightLog {
  /** Start of what each reading covers, UTC milliseconds, rising. Missing readings are left out. */
  time_ms: Float64Array;
  light_W_m2: Float64Array;
  /** 1-based line of each. */
  line: Uint32Array;
  /** Usual time from one reading to the next. */
  step_s: number;
}

/**
 * Readings of a light logger from a CSV file, in W/m2, at any step of up to an hour. Gaps are no fault of a log.
 *
 * in: file, name and bytes; log, its mapping
 * out: readings in the order of time
 * throws: FILE_*, WEATHER_COLUMN_MISSING, WEATHER_STAMP_UNREADABLE, WEATHER_AMBIGUOUS, WEATHER_VALUE_NOT_NUMBER,
 *   WEATHER_DUPLICATE, WEATHER_DISORDER, FIT_UNDETERMINED for steps longer than an hour; all of a file together
 */
export function readLightLog(file: { name: string; bytes: Uint8Array }, log: MeasuredLight): LightLog {
  const problems = problemList();
  const { text } = decodeText(file);
  const headings = [log.stamp.column, log.column];
  const heading = findHeading(text, headings);
  const places = headings.map((wanted) => {
    const place = heading.cells.indexOf(wanted.trim());
    if (place < 0) {
      problems.add(`column ${wanted}`, () => ({
        code: 'WEATHER_COLUMN_MISSING',
        file: file.name,
        line: heading.line,
        field: wanted,
        got: `the columns ${heading.cells.map(quotedCell).join(', ')}`,
        expected: `a column "${wanted}"`,
        fix: 'name one of the columns there are.',
      }));
    }
    return place;
  });
  throwIfAny(problems);
  const rows = csvRows(file.name, text, heading, places, problems);
  const [stamps, cells] = [rows.cells[0]!, rows.cells[1]!];
  if (stamps.length === 0) {
    throw new InputProblem({
      code: 'FILE_EMPTY',
      file: file.name,
      line: heading.line,
      got: 'a heading row and nothing below it',
      expected: 'readings of some days',
      fix: 'export it again.',
    });
  }
  const stamp_ms = stampTimes(file.name, log, stamps, rows.line, problems);
  throwIfAny(problems);
  const step_ms = usualStep(stamp_ms);
  if (!(step_ms <= HOUR_MS)) {
    throw new InputProblem({
      code: 'FIT_UNDETERMINED',
      file: file.name,
      field: log.stamp.column,
      got: stamps.length < 2 ? 'a single reading' : `a reading every ${(step_ms / HOUR_MS).toFixed(1)} h`,
      expected: 'a reading at least every hour',
      fix: 'log again at a shorter step.',
    });
  }
  const shift_ms = { start: 0, middle: step_ms / 2, end: step_ms }[log.stamp.marks];
  const lux = log.unit === 'lux' || log.unit === 'klux';
  const perLux = (log.unit === 'klux' ? 1000 : 1) / log.lumenPerWatt;
  const isMissing = missingTest(log.missing);
  const kept: number[] = [];
  const values: number[] = [];
  cells.forEach((cell, row) => {
    const value = parseNumber(cell);
    if (isMissing(cell, value)) return;
    if (Number.isNaN(value)) {
      problems.add('number', () => ({
        code: 'WEATHER_VALUE_NOT_NUMBER',
        file: file.name,
        line: rows.line[row]!,
        field: log.column,
        got: quotedCell(cell),
        expected: `a number in ${log.unit}`,
        fix: `if it stands for 'missing', add ${JSON.stringify(cell)} to measured_light.missing.`,
      }));
      return;
    }
    kept.push(row);
    values.push(lux ? value * perLux : toCanonical(value, log.unit as UnitName, step_ms / 1000));
  });
  throwIfAny(problems);
  return {
    time_ms: Float64Array.from(kept, (row) => stamp_ms[row]! - shift_ms),
    light_W_m2: Float64Array.from(values),
    line: Uint32Array.from(kept, (row) => rows.line[row]!),
    step_s: step_ms / 1000,
  };
}

const HOUR_MS = 3_600_000;

function stampTimes(
  file: string,
  log: MeasuredLight,
  stamps: readonly string[],
  line: readonly number[],
  problems: ProblemList,
): number[] {
  const zone_ms = parseOffset(log.stamp.zone);
  const { styles } = chooseStampStyle(stamps);
  const where = { file, field: log.stamp.column };
  if (styles.length > 1) {
    problems.add('style', () => ({
      ...where,
      code: 'WEATHER_AMBIGUOUS',
      line: line[0]!,
      got: `${quotedCell(stamps[0]!)}, which could be ${styles.map((style) => style.name).join(' or ')}`,
      expected: 'stamps that can be read in one way only',
      fix: 'write them as 2021-12-31 23:00.',
    }));
  }
  let before = Number.NEGATIVE_INFINITY;
  return stamps.map((stamp, row) => {
    const time = styles[0] === undefined ? Number.NaN : parseStamp(stamp, styles[0], zone_ms);
    const place = { ...where, line: line[row]! };
    if (Number.isNaN(time)) {
      problems.add('stamp', () => ({
        ...place,
        code: 'WEATHER_STAMP_UNREADABLE',
        got: quotedCell(stamp),
        expected: `a time that exists, written as ${styles[0]?.example ?? '2021-12-31 23:00'}`,
        fix: 'mend the stamp, or name another stamp column.',
      }));
    } else if (time === before) {
      problems.add('twice', () => ({
        ...place,
        code: 'WEATHER_DUPLICATE',
        got: `${quotedCell(stamp)} a second time`,
        expected: 'one row for each time',
        fix: 'remove one of the two.',
      }));
    } else if (time < before) {
      problems.add('back', () => ({
        ...place,
        code: 'WEATHER_DISORDER',
        got: `${quotedCell(stamp)} after a later time`,
        expected: 'rows in the order of time',
        fix: 'sort the rows by their stamp.',
      }));
    }
    if (time > before) before = time;
    return time;
  });
}

/** The median of the times between readings. */
function usualStep(time_ms: readonly number[]): number {
  const steps = time_ms.slice(1).map((time, i) => time - time_ms[i]!);
  steps.sort((a, b) => a - b);
  return steps[Math.floor(steps.length / 2)] ?? Number.NaN;
}

function throwIfAny(problems: ProblemList): void {
  const list = problems.list();
  if (list.length > 0) throw new InputProblem(list);
}
