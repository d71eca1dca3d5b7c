import type { Problem } from '../common/InputProblem.ts';
import type { ProblemList } from '../common/problemList.ts';
import { HOUR_MS, utcText } from '../common/time.ts';

/** Hours of a file, contiguous, when its stamps stand in order without gaps. */
interface HourGrid {
  start_ms: number;
  count: number;
}

/** Rows of a file by their times, in its order. */
interface StampedRows {
  /** File and heading of the stamp column, for messages. */
  file: string;
  field: string;
  /** Start of each row's hour, NaN where the stamp could not be read (already reported). */
  time_ms: readonly number[];
  /** Line of each row. */
  line: readonly number[];
}

/**
 * Checks that rows follow each other hour by hour; what does not is put on the list of problems.
 *
 * in: rows
 * out: the hours, row i being hour i; undefined when they do not follow each other
 */
export function hourGrid(rows: StampedRows, problems: ProblemList): HourGrid | undefined {
  const { file, field, time_ms, line } = rows;
  const readable = time_ms.filter((time) => !Number.isNaN(time));
  if (readable.length === 0) return undefined;
  const step = commonStep(readable);
  if (step > 0 && step !== HOUR_MS) {
    problems.add('step', () => ({
      code: 'WEATHER_STAMP_UNREADABLE',
      file,
      line: line[1]!,
      field,
      got: `rows ${step / 60_000} minutes apart`,
      expected: 'one row an hour',
      fix: 'give hourly means.',
    }));
    return undefined;
  }
  const phase = commonest(readable.map((time) => modulo(time, HOUR_MS)));
  const taken = takenHours(rows, phase, problems);
  const hours = Float64Array.from(taken.lineOf.keys()).sort();
  const whole = noHoles(rows, hours, taken, problems);
  return whole && hours.length === time_ms.length && taken.inOrder
    ? { start_ms: hours[0]!, count: hours.length }
    : undefined;
}

/** Hours that rows stand for. */
interface TakenHours {
  /** Line of the first row of each hour. */
  lineOf: Map<number, number>;
  /** For each row that stands for no hour, the latest hour before it. */
  skippedAfter: number[];
  inOrder: boolean;
}

/** The hour of each row; rows off the hours of the others, second ones of an hour and earlier ones are reported. */
function takenHours(rows: StampedRows, phase: number, problems: ProblemList): TakenHours {
  const { file, field } = rows;
  const lineOf = new Map<number, number>();
  const skippedAfter: number[] = [];
  let inOrder = true;
  let latest = Number.NEGATIVE_INFINITY;
  for (const [row, time] of rows.time_ms.entries()) {
    const line = rows.line[row]!;
    const report = (kind: string, problem: Pick<Problem, 'code' | 'got' | 'expected' | 'fix'>) =>
      problems.add(kind, () => ({ file, line, field, ...problem }));
    const off = modulo(time - phase, HOUR_MS);
    const first = lineOf.get(time);
    if (Number.isNaN(time)) skippedAfter.push(latest);
    else if (off !== 0) {
      skippedAfter.push(latest);
      report('off the hour', {
        code: 'WEATHER_STAMP_UNREADABLE',
        got: `a row ${Math.round(off / 600) / 100} minutes off the hours of the others`,
        expected: 'one row an hour',
        fix: 'correct the stamp.',
      });
    } else if (first !== undefined) {
      report('duplicate', {
        code: 'WEATHER_DUPLICATE',
        got: `the hour from ${utcText(time)} again (first on line ${first})`,
        expected: 'one row for each hour',
        fix: 'take one of the two away; if the clock keeps daylight saving time, export in UTC or standard time.',
      });
    } else {
      lineOf.set(time, line);
      if (time < latest) {
        inOrder = false;
        report('disorder', {
          code: 'WEATHER_DISORDER',
          got: `the hour from ${utcText(time)} after ${utcText(latest)}`,
          expected: 'rows in the order of time',
          fix: 'sort the rows by time.',
        });
      }
      latest = Math.max(latest, time);
    }
  }
  return { lineOf, skippedAfter, inOrder };
}

/** Whether each hour follows the one before; hours without a row are reported. */
function noHoles(
  { file, field }: StampedRows,
  hours: Float64Array,
  { lineOf, skippedAfter }: TakenHours,
  problems: ProblemList,
): boolean {
  let whole = true;
  for (let i = 1; i < hours.length; i++) {
    const from = hours[i - 1]! + HOUR_MS;
    const missing = (hours[i]! - from) / HOUR_MS;
    if (missing === 0) continue;
    whole = false;
    // Rows whose stamp could not be read stand here; they are reported, the hole they leave is no news.
    if (skippedAfter.filter((before) => before === hours[i - 1]).length >= missing) continue;
    const leapDay = missing === 24 && utcText(from + 12 * HOUR_MS).includes('-02-29');
    problems.add('gap', () => ({
      code: 'WEATHER_GAP',
      file,
      line: lineOf.get(hours[i]!)!,
      field,
      got: `no rows from ${utcText(from)} to ${utcText(hours[i]!)} (${missing} ${missing === 1 ? 'hour' : 'hours'})`,
      expected: 'a row for every hour',
      fix: leapDay
        ? 'the file leaves out 29 February; add that day.'
        : missing === 1
          ? 'add the row; if the clock keeps daylight saving time, export in UTC or standard time.'
          : 'add the rows, or take another year.',
    }));
  }
  return whole;
}

function modulo(value: number, divisor: number): number {
  return ((value % divisor) + divisor) % divisor;
}

/** Commonest step between rows that go forward in time; 0 when there is none. */
function commonStep(time_ms: readonly number[]): number {
  const steps = time_ms.slice(1).map((time, i) => time - time_ms[i]!);
  return commonest(steps.filter((step) => step > 0));
}

/** The value that occurs most often, the first of several; 0 when there is none. */
function commonest(values: readonly number[]): number {
  const counts = new Map<number, number>();
  let best = 0;
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  for (const [value, count] of counts) if (count > (counts.get(best) ?? 0)) best = value;
  return best;
}
