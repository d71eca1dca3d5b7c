import { InputProblem, type Problem } from '../../common/InputProblem.ts';
import { problemList } from '../../common/problemList.ts';
import { HOUR_MS, utcText } from '../../common/time.ts';
import type { UnitName } from '../../tables/units.ts';
import { toCanonical } from '../../tables/units.ts';
import type { MeasuredLight } from '../spotParams.ts';
import { readLog } from './readLog.ts';

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
 * throws: what `readLog` throws
 */
export function readLightLog(file: { name: string; bytes: Uint8Array }, log: MeasuredLight): LightLog {
  const { stamp_ms, value, line, step_ms } = readLog(file, { ...log, missingKey: 'measured_light.missing' });
  const shift_ms = { start: 0, middle: step_ms / 2, end: step_ms }[log.stamp.marks];
  const lux = log.unit === 'lux' || log.unit === 'klux';
  const perLux = (log.unit === 'klux' ? 1000 : 1) / log.lumen_per_W;
  return {
    time_ms: Float64Array.from(stamp_ms, (each) => each - shift_ms),
    light_W_m2: Float64Array.from(value, (each) =>
      lux ? each * perLux : toCanonical(each, log.unit as UnitName, step_ms / 1000),
    ),
    line: Uint32Array.from(line),
    step_s: step_ms / 1000,
  };
}

/** This many readings at exactly the highest, over an hour in a row or as this share of the lit ones, are a flat top. */
const FLAT_READINGS = 3;
const FLAT_SHARE = 0.1;
/** Readings this near to the highest count as the highest. */
const FLAT_NEAR = 1e-4;
const FEWEST_HOURS = 24;

/**
 * Problems of readings that cannot be daylight: below -10 W/m2 is no sensor's offset, above 1600 no sun on the ground.
 *
 * in: light_W_m2; line of each; at, code, file and column of the problems; unit the file states; shown, a reading in
 *   the words of the file
 */
export function notDaylight(
  light_W_m2: Float64Array,
  line: Uint32Array,
  at: Pick<Problem, 'code'> & { file: string; field: string },
  unit: string,
  shown: (light_W_m2: number) => string,
): Problem[] {
  const problems = problemList();
  light_W_m2.forEach((value, i) => {
    if (value >= -10 && value <= 1600) return;
    problems.add('range', () => ({
      ...at,
      line: line[i]!,
      got: shown(value),
      expected: 'daylight, -10 to 1600 W/m2',
      fix: `check the unit (${unit} is stated) and the sensor.`,
    }));
  });
  return problems.list();
}

/**
 * Refuses a log that cannot be (saturated, negative, too bright) or that tells nothing (shorter than a day, other
 * dates than the weather).
 *
 * in: file, its name; log, how it is mapped; readings; weather, the hours there are
 * throws: SPOT_PROFILE, FIT_UNDETERMINED
 */
export function checkLog(
  file: string,
  log: MeasuredLight,
  readings: LightLog,
  weather: { start_ms: number; count: number },
): void {
  const { light_W_m2, line, step_s } = readings;
  const shown = (light: number) =>
    log.unit === 'lux' || log.unit === 'klux'
      ? `${Number(((light * log.lumen_per_W) / (log.unit === 'klux' ? 1000 : 1)).toPrecision(6))} ${log.unit}`
      : `${Number(light.toPrecision(6))} W/m2`;
  const all = notDaylight(
    light_W_m2,
    line,
    { code: 'SPOT_PROFILE', file, field: log.column },
    log.unit,
    shown,
  );
  const most = light_W_m2.reduce((high, value) => Math.max(high, value), 0);
  const lit = light_W_m2.filter((value) => value > 0).length;
  const top = [...light_W_m2.keys()].filter((i) => most > 0 && light_W_m2[i]! >= most * (1 - FLAT_NEAR));
  const row = Math.max(FLAT_READINGS, Math.ceil(3600 / step_s));
  const inRow = top.some((i, k) => top[k + row - 1] === i + row - 1);
  if (inRow || (top.length >= FLAT_READINGS && top.length >= FLAT_SHARE * lit)) {
    all.push({
      code: 'SPOT_PROFILE',
      file,
      line: line[top[0]!]!,
      field: log.column,
      got: `a flat top: ${top.length} of ${lit} lit readings are ${shown(most)}`,
      expected: 'a sensor that does not reach its limit',
      fix: 'log again with a wider range, or under a sheet of paper whose share you know.',
    });
  }
  if (all.length > 0) throw new InputProblem(all);
  checkDates(file, log, readings, weather);
}

function checkDates(
  file: string,
  log: MeasuredLight,
  readings: LightLog,
  weather: { start_ms: number; count: number },
): void {
  const { time_ms, step_s } = readings;
  const end_ms = weather.start_ms + weather.count * HOUR_MS;
  const [first_ms, last_ms] = [time_ms[0] ?? 0, (time_ms.at(-1) ?? 0) + step_s * 1000];
  const fail = (got: string, expected: string, fix: string) =>
    new InputProblem({ code: 'FIT_UNDETERMINED', file, field: log.stamp.column, got, expected, fix });
  const held_h = (time_ms.length * step_s) / 3600;
  if (held_h < FEWEST_HOURS) {
    throw fail(
      `${Number(held_h.toFixed(1))} hours`,
      'at least a whole day, better a week with sun and cloud',
      'log on.',
    );
  }
  // Readings longer than half an hour must be the hours of the weather, or they would count for the wrong one.
  if (step_s > 1800 && (first_ms - weather.start_ms) % HOUR_MS !== 0) {
    throw fail(
      `hours that start at ${utcText(first_ms)}`,
      `whole hours as in the weather, which starts at ${utcText(weather.start_ms)}`,
      'state what the stamps mark, or log at a shorter step.',
    );
  }
  const within = time_ms.filter((time) => time >= weather.start_ms && time < end_ms).length;
  if ((within * step_s) / 3600 < FEWEST_HOURS) {
    throw fail(
      `a log from ${utcText(first_ms)} to ${utcText(last_ms)}`,
      `a day at least within the weather, which runs from ${utcText(weather.start_ms)} to ${utcText(end_ms)}`,
      'take the weather of the days the log was made, or check the year in its stamps.',
    );
  }
}

/**
 * Means of a log over the hours of a record, in W/m2.
 *
 * in: log; start_ms, start of the record's first hour; count, its hours
 * out: one value an hour; NaN where the log holds less than nine tenths of the readings that an hour has
 */
export function hourlyMeans(log: LightLog, start_ms: number, count: number): Float64Array {
  const sums = new Float64Array(count);
  const held = new Float64Array(count);
  const step_ms = log.step_s * 1000;
  log.light_W_m2.forEach((light, k) => {
    const hour = Math.floor((log.time_ms[k]! + step_ms / 2 - start_ms) / HOUR_MS);
    if (hour < 0 || hour >= count) return;
    sums[hour]! += light;
    held[hour]!++;
  });
  const enough = (0.9 * HOUR_MS) / step_ms;
  return sums.map((sum, hour) => (held[hour]! >= enough ? sum / held[hour]! : Number.NaN));
}
