import { HIGHEST_NIGHT_W_M2 } from '../limits.ts';
import { equalRuns, type RepeatedValue } from './repeatedValues.ts';
import type { SunLight } from './SunLight.ts';

/** Share of the light outside the air that passes even the darkest overcast of a whole hour; common practice, no source. */
const DARKEST_SHARE = 0.01;
/** Least light that must be due, so that a clipped offset of the sensor does not count. */
const LEAST_DUE_W_M2 = 0.5;
const LEAST_HOURS = 3;

/**
 * Stretches of zeros (or of one small value in a sensor's offset) while so much light is due that even the darkest
 * overcast shows: a gap or a dead sensor written as zeros. Nights, polar nights and sunrise hours are none.
 *
 * in: values, W/m2, NaN missing; light, over the same hours; resolution_W_m2, step in which the values are written
 * out: stretches from the first to the last hour in which light is due, nights between them included
 */
export function zeroHours(values: Float64Array, light: SunLight, resolution_W_m2: number): RepeatedValue[] {
  const due = Math.max(resolution_W_m2, LEAST_DUE_W_M2);
  const found: RepeatedValue[] = [];
  for (const run of equalRuns(values)) {
    const value = values[run.from]!;
    if (Math.abs(value) > HIGHEST_NIGHT_W_M2) continue;
    let from = -1;
    let to = -1;
    let hours = 0;
    let most = 0;
    for (let i = run.from; i < run.to; i++) {
      const least = DARKEST_SHARE * light.outside_W_m2[i]!;
      if (least < due || value >= least) continue;
      if (from < 0) from = i;
      to = i + 1;
      hours++;
      most = Math.max(most, least);
    }
    if (hours < LEAST_HOURS) continue;
    const shown = Math.round(value * 10) / 10 + 0;
    found.push({
      from,
      to,
      value,
      evidence: `${shown} W/m2 without change in ${hours} hours with the sun up, where even the darkest overcast leaves up to ${Math.round(most * 10) / 10} W/m2`,
    });
  }
  return found;
}
