import { HOUR_MS } from '../../common/time.ts';
import type { LightLog } from './readLightLog.ts';

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
