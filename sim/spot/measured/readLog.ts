import { InputProblem } from '../../common/InputProblem.ts';
import { type ProblemList, problemList } from '../../common/problemList.ts';
import { HOUR_MS } from '../../common/time.ts';
import { type HourlyMapping, namedColumns, noNumber } from '../../tables/hourlyTable.ts';
import { missingTest, parseNumber, quotedCell } from '../../tables/parseNumber.ts';
import { stampTimes } from '../../tables/stampReader.ts';
import { parseOffset } from '../../tables/stampStyles.ts';

/** How one column of a logger's file is to be read. */
export interface LogMapping {
  stamp: Pick<HourlyMapping['stamp'], 'column' | 'zone'>;
  column: string;
  missing: readonly string[];
  /** Unit of the column, in words, and where codes for 'missing' are added. */
  unit: string;
  missingKey: string;
}

/** Readings of a logger as they stand in the file, missing ones left out. */
export interface LogReadings {
  /** The stamps, UTC milliseconds, rising. */
  stamp_ms: number[];
  value: number[];
  /** 1-based line of each. */
  line: number[];
  /** Usual time from one reading to the next, milliseconds. */
  step_ms: number;
}

/**
 * One column of a logger's CSV file with its stamps, in the column's unit, at any step of up to an hour. Gaps are no
 * fault of a log.
 *
 * in: file, name and bytes; log, its mapping
 * out: readings in the order of time
 * throws: FILE_*, WEATHER_COLUMN_MISSING, WEATHER_STAMP_UNREADABLE, WEATHER_AMBIGUOUS, WEATHER_VALUE_NOT_NUMBER,
 *   WEATHER_DUPLICATE, WEATHER_DISORDER, FIT_UNDETERMINED for steps longer than an hour; all of a file together
 */
export function readLog(file: { name: string; bytes: Uint8Array }, log: LogMapping): LogReadings {
  const problems = problemList();
  const { cells, line } = namedColumns(
    file,
    [log.stamp.column, log.column],
    'readings of some days',
    problems,
  );
  const [stamps, readings] = [cells[0]!, cells[1]!];
  const stamp_ms = risingTimes(file.name, log, stamps, line, problems);
  problems.throwIfAny();
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
  const isMissing = missingTest(log.missing);
  const kept: LogReadings = { stamp_ms: [], value: [], line: [], step_ms };
  readings.forEach((cell, row) => {
    const value = parseNumber(cell);
    if (isMissing(cell, value)) return;
    if (Number.isNaN(value)) {
      problems.add('number', () => ({
        file: file.name,
        line: line[row]!,
        field: log.column,
        ...noNumber(cell, log.unit, log.missingKey),
      }));
    }
    kept.stamp_ms.push(stamp_ms[row]!);
    kept.value.push(value);
    kept.line.push(line[row]!);
  });
  problems.throwIfAny();
  return kept;
}

function risingTimes(
  file: string,
  log: LogMapping,
  stamps: readonly string[],
  line: readonly number[],
  problems: ProblemList,
): number[] {
  const where = { file, field: log.stamp.column };
  const { times } = stampTimes(where, stamps, line, parseOffset(log.stamp.zone), problems);
  let before = Number.NEGATIVE_INFINITY;
  times.forEach((time, row) => {
    const place = { ...where, line: line[row]! };
    if (time === before) {
      problems.add('twice', () => ({
        ...place,
        code: 'WEATHER_DUPLICATE',
        got: `${quotedCell(stamps[row]!)} a second time`,
        expected: 'one row for each time',
        fix: 'remove one of the two.',
      }));
    } else if (time < before) {
      problems.add('back', () => ({
        ...place,
        code: 'WEATHER_DISORDER',
        got: `${quotedCell(stamps[row]!)} after a later time`,
        expected: 'rows in the order of time',
        fix: 'sort the rows by their stamp.',
      }));
    }
    if (time > before) before = time;
  });
  return times;
}

/** The median of the times between readings. */
function usualStep(time_ms: readonly number[]): number {
  const steps = time_ms.slice(1).map((time, i) => time - time_ms[i]!);
  steps.sort((a, b) => a - b);
  return steps[Math.floor(steps.length / 2)] ?? Number.NaN;
}
