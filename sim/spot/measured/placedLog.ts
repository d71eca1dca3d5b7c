import { InputProblem } from '../../common/InputProblem.ts';
import { HOUR_MS, utcText } from '../../common/time.ts';
import type { SunColumns } from '../../sun/sunColumns.ts';
import type { PlaneFactors } from '../planeFactors.ts';
import type { LightLog } from '../SpotFiles.ts';
import type { MeasuredLight } from '../spotParams.ts';

/** A log of light at a spot, laid beside the hours of a calendar. */
export interface PlacedLog {
  log: MeasuredLight;
  /** Means over the hours; NaN where the log has none. */
  light_W_m2: Float64Array;
  /** Of the sensor's own plane, among what is stated of the surroundings. */
  sensor: PlaneFactors;
}

/**
 * A log of light laid beside the hours of a calendar, W/m2.
 *
 * in: log, its mapping; readings, what its file says; sun over the hours; sensor, factors of the sensor's plane
 * throws: FIT_UNDETERMINED for a log that is too short or of other dates
 */
export function placedLog(
  log: MeasuredLight,
  readings: LightLog,
  sun: SunColumns,
  sensor: PlaneFactors,
): PlacedLog {
  checkDates(log, readings, sun);
  return { log, light_W_m2: hourlyMeans(readings, sun.start_ms, sun.count), sensor };
}

const FEWEST_HOURS = 24;

/** Refuses a log that tells nothing: shorter than a day, of other dates than the weather. */
function checkDates(
  log: MeasuredLight,
  { time_ms, step_s }: LightLog,
  weather: { start_ms: number; count: number },
): void {
  const end_ms = weather.start_ms + weather.count * HOUR_MS;
  const [first_ms, last_ms] = [time_ms[0] ?? 0, (time_ms.at(-1) ?? 0) + step_s * 1000];
  const fail = (got: string, expected: string, fix: string) =>
    new InputProblem({
      code: 'FIT_UNDETERMINED',
      file: log.file,
      field: log.stamp.column,
      got,
      expected,
      fix,
    });
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
