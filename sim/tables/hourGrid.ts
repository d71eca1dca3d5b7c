import { mode, pairs } from 'd3-array';
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

/** What is wrong with one row. */
type RowProblem = Pick<Problem, 'code' | 'got' | 'expected' | 'fix'>;

/**
 * Checks that rows follow each other hour by hour; what does not is put on the list of problems.
 *
 * in: rows
 * out: the hours, row i being hour i; undefined when they do not follow each other
 */
export function hourGrid(rows: StampedRows, problems: ProblemList): HourGrid | undefined {
  const { file, field, time_ms, line } = rows;
  const readable = time_ms.filter((time) => !Number.isNaN(time));
  let whole = readable.length === time_ms.length && readable.length > 0;
  const report = (kind: string, row: number, problem: RowProblem): void => {
    whole = false;
    problems.add(kind, () => ({ file, line: line[row]!, field, ...problem }));
  };
  const steps = pairs(time_ms, (before, time) => time - before);
  const step = mode(steps.filter((ms) => ms > 0)) ?? HOUR_MS;
  if (step !== HOUR_MS) {
    report('step', 1, unreadable(`rows ${step / 60_000} minutes apart`, 'give hourly means.'));
    return undefined;
  }
  const phase = mode(readable, (time) => modulo(time, HOUR_MS)) ?? 0;
  const lineOf = new Map<number, number>();
  const present = new Set(readable);
  let latest = Number.NaN;
  // Rows whose stamp stands for no hour; they are reported, the hole they leave is no news.
  let skipped = 0;
  for (const [row, time] of time_ms.entries()) {
    const off = modulo(time - phase, HOUR_MS);
    const lacks = (time - latest) / HOUR_MS - 1;
    if (off !== 0) {
      skipped++;
      const got = `a row ${Math.round(off / 600) / 100} minutes off the hours of the others`;
      if (!Number.isNaN(off)) report('off the hour', row, unreadable(got, 'correct the stamp.'));
    } else if (lineOf.has(time)) report('duplicate', row, again(time, lineOf.get(time)!));
    else if (time < latest) report('disorder', row, goesBack(time, latest));
    else {
      if (lacks > skipped && !present.has(latest + HOUR_MS)) report('gap', row, gap(latest + HOUR_MS, time));
      latest = time;
      skipped = 0;
    }
    if (off === 0 && !lineOf.has(time)) lineOf.set(time, line[row]!);
  }
  return whole ? { start_ms: time_ms[0]!, count: time_ms.length } : undefined;
}

function unreadable(got: string, fix: string): RowProblem {
  return { code: 'WEATHER_STAMP_UNREADABLE', got, expected: 'one row an hour', fix };
}

function again(time: number, first: number): RowProblem {
  return {
    code: 'WEATHER_DUPLICATE',
    got: `the hour from ${utcText(time)} again (first on line ${first})`,
    expected: 'one row for each hour',
    fix: 'take one of the two away; if the clock keeps daylight saving time, export in UTC or standard time.',
  };
}

function goesBack(time: number, latest: number): RowProblem {
  return {
    code: 'WEATHER_DISORDER',
    got: `the hour from ${utcText(time)} after ${utcText(latest)}`,
    expected: 'rows in the order of time',
    fix: 'sort the rows by time.',
  };
}

function gap(from: number, to: number): RowProblem {
  const missing = (to - from) / HOUR_MS;
  const leapDay = missing === 24 && utcText(from + 12 * HOUR_MS).includes('-02-29');
  const one = 'add the row; if the clock keeps daylight saving time, export in UTC or standard time.';
  const many = leapDay
    ? 'the file leaves out 29 February; add that day.'
    : 'add the rows, or take another year.';
  return {
    code: 'WEATHER_GAP',
    got: `no rows from ${utcText(from)} to ${utcText(to)} (${missing} ${missing === 1 ? 'hour' : 'hours'})`,
    expected: 'a row for every hour',
    fix: missing === 1 ? one : many,
  };
}

function modulo(value: number, divisor: number): number {
  return ((value % divisor) + divisor) % divisor;
}
