import type { ProblemList } from '../common/problemList.ts';
import { HOUR_MS, utcText } from '../common/time.ts';

/** Hours of a file, contiguous, when its stamps stand in order without gaps. */
export interface HourGrid {
  start_ms: number;
  count: number;
}

/**
 * Checks that rows follow each other hour by hour; what does not is put on the list of problems.
 *
 * in: file, name for messages; heading of the stamp column; time_ms, start of each row's hour in the order of the
 * file, NaN where the stamp could not be read (already reported); line of each row
 * out: the hours, row i being hour i; undefined when they do not follow each other
 */
export function hourGrid(
  file: string,
  heading: string,
  time_ms: readonly number[],
  line: readonly number[],
  problems: ProblemList,
): HourGrid | undefined {
  const readable = time_ms.filter((time) => !Number.isNaN(time));
  if (readable.length === 0) return undefined;
  const step = commonStep(readable);
  if (step > 0 && step !== HOUR_MS) {
    problems.add('step', () => ({
      code: 'WEATHER_STAMP_UNREADABLE',
      file,
      line: line[1]!,
      field: heading,
      got: `rows ${step / 60_000} minutes apart`,
      expected: 'one row an hour',
      fix: 'give hourly means.',
    }));
    return undefined;
  }
  let holds = readable.length === time_ms.length;
  const phase = commonest(readable.map((time) => modulo(time, HOUR_MS)));
  const lineOf = new Map<number, number>();
  const skipped: number[] = [];
  let latest = Number.NEGATIVE_INFINITY;
  for (let row = 0; row < time_ms.length; row++) {
    const time = time_ms[row]!;
    if (Number.isNaN(time)) {
      skipped.push(latest);
      continue;
    }
    const place = { file, line: line[row]!, field: heading };
    const first = lineOf.get(time);
    if (modulo(time, HOUR_MS) !== phase) {
      holds = false;
      skipped.push(latest);
      const off = modulo(time - phase, HOUR_MS) / 60_000;
      problems.add('off the hour', () => ({
        ...place,
        code: 'WEATHER_STAMP_UNREADABLE',
        got: `a row ${Math.round(off * 100) / 100} minutes off the hours of the others`,
        expected: 'one row an hour',
        fix: 'correct the stamp.',
      }));
      continue;
    }
    if (first !== undefined) {
      holds = false;
      problems.add('duplicate', () => ({
        ...place,
        code: 'WEATHER_DUPLICATE',
        got: `the hour from ${utcText(time)} again (first on line ${first})`,
        expected: 'one row for each hour',
        fix: 'take one of the two away; if the clock keeps daylight saving time, export in UTC or standard time.',
      }));
      continue;
    }
    lineOf.set(time, line[row]!);
    if (time < latest) {
      holds = false;
      problems.add('disorder', () => ({
        ...place,
        code: 'WEATHER_DISORDER',
        got: `the hour from ${utcText(time)} after ${utcText(latest)}`,
        expected: 'rows in the order of time',
        fix: 'sort the rows by time.',
      }));
    } else latest = time;
  }
  const hours = Float64Array.from(lineOf.keys()).sort();
  for (let i = 1; i < hours.length; i++) {
    const from = hours[i - 1]! + HOUR_MS;
    const missing = (hours[i]! - from) / HOUR_MS;
    if (missing === 0) continue;
    holds = false;
    // Rows whose stamp could not be read stand here; they are reported, the hole they leave is no news.
    if (skipped.filter((before) => before === hours[i - 1]).length >= missing) continue;
    const leapDay = missing === 24 && utcText(from + 12 * HOUR_MS).includes('-02-29');
    problems.add('gap', () => ({
      code: 'WEATHER_GAP',
      file,
      line: lineOf.get(hours[i]!)!,
      field: heading,
      got: `no rows from ${utcText(from)} to ${utcText(hours[i]!)} (${missing} ${missing === 1 ? 'hour' : 'hours'})`,
      expected: 'a row for every hour',
      fix: leapDay
        ? 'the file leaves out 29 February; add that day.'
        : missing === 1
          ? 'add the row; if the clock keeps daylight saving time, export in UTC or standard time.'
          : 'add the rows, or take another year.',
    }));
  }
  return holds ? { start_ms: hours[0]!, count: hours.length } : undefined;
}

function modulo(value: number, divisor: number): number {
  return ((value % divisor) + divisor) % divisor;
}

/** Commonest step between rows that go forward in time; 0 when there is none. */
function commonStep(time_ms: readonly number[]): number {
  const steps: number[] = [];
  for (let i = 1; i < time_ms.length; i++) {
    const step = time_ms[i]! - time_ms[i - 1]!;
    if (step > 0) steps.push(step);
  }
  return commonest(steps);
}

/** The value that occurs most often, the first of several; 0 when there is none. */
function commonest(values: readonly number[]): number {
  const counts = new Map<number, number>();
  let best = 0;
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  for (const [value, count] of counts) if (count > (counts.get(best) ?? 0)) best = value;
  return best;
}
