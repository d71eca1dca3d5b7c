import { equalRuns } from './equalRuns.ts';
import type { RepeatedValue } from './repeatedValues.ts';
import type { SunLight } from './SunLight.ts';
import { type Stretch, stretchesOf } from './stretchesOf.ts';

/** Share of the light outside the air that passes even the darkest overcast in an hour; common practice, no source. */
const DARKEST_SHARE = 0.01;
/** The same over a whole day, in which the darkest hours do not stay; common practice, no source. */
const DARKEST_DAY_SHARE = 0.04;
/** Least light that must be due, so that a clipped offset of the sensor does not count. */
const LEAST_DUE_W_M2 = 0.5;
/** What a sensor's offset may hide. */
const OFFSET_W_M2 = 3;
const LEAST_HOURS = 3;
/** Light outside the air from which an hour counts towards its day. */
const LEAST_OUTSIDE_W_M2 = 50;

/**
 * Stretches of zeros (or of one small value), or of readings near zero, while so much light is due that even the
 * darkest overcast shows: a gap written as zeros, a dead or a covered sensor. Nights, polar nights, sunrise hours and
 * dull days in coarse steps are none.
 *
 * in: values, W/m2, NaN missing; light, over the same hours; resolution_W_m2, step in which the values are written
 * out: stretches from the first to the last hour in which light is due, nights between them included
 */
export function zeroHours(values: Float64Array, light: SunLight, resolution_W_m2: number): RepeatedValue[] {
  const step = Math.max(resolution_W_m2, LEAST_DUE_W_M2);
  const found: RepeatedValue[] = [];
  for (const run of equalRuns(values)) {
    const stretch = tooDark(values[run.from]!, run, light, step);
    if (stretch !== undefined) found.push(stretch);
  }
  const margin = Math.max(resolution_W_m2, OFFSET_W_M2);
  const changing = stretchesOf(values.length, (i) => {
    const least = DARKEST_SHARE * light.outside_W_m2[i]!;
    return least >= margin && values[i]! + margin < least;
  }).filter(({ from, to }) => to - from >= LEAST_HOURS);
  for (const { from, to } of changing) {
    if (found.some((other) => from < other.to && to > other.from)) continue;
    const evidence = `at most ${round(Math.max(...values.subarray(from, to)))} W/m2 in ${to - from} hours with the sun up, less than one percent of what is due outside the air`;
    found.push({ from, to, value: values[from]!, evidence });
  }
  return found.toSorted((a, b) => a.from - b.from);
}

/** The part of a run of one value in which that value cannot be; undefined where it can. */
function tooDark(value: number, run: Stretch, light: SunLight, step: number): RepeatedValue | undefined {
  const limit = Math.max(value, 0) + step;
  const hours: number[] = [];
  const lit: number[] = [];
  for (let i = run.from; i < run.to; i++) {
    const outside = light.outside_W_m2[i]!;
    if (outside >= LEAST_OUTSIDE_W_M2) lit.push(i);
    if (DARKEST_SHARE * outside >= limit) hours.push(i);
  }
  const mean = lit.reduce((sum, i) => sum + light.outside_W_m2[i]!, 0) / lit.length;
  const wholeDay = holdsWholeDay(lit, light) && DARKEST_DAY_SHARE * mean >= limit + OFFSET_W_M2;
  const telling = wholeDay ? lit : hours;
  if (telling.length < LEAST_HOURS) return undefined;
  const most = telling.reduce((highest, i) => Math.max(highest, light.outside_W_m2[i]!), 0);
  return {
    from: telling[0]!,
    to: telling[telling.length - 1]! + 1,
    value,
    evidence: `${round(value)} W/m2 without change in ${telling.length} hours with the sun up, while up to ${Math.round(most)} W/m2 came in outside the air`,
  };
}

/** Whether lit hours hold all those of a day, from its first to its last. */
function holdsWholeDay(lit: readonly number[], light: SunLight): boolean {
  let first = -1;
  for (let k = 0; k < lit.length; k++) {
    const i = lit[k]!;
    if (!((light.outside_W_m2[i - 1] ?? 0) >= LEAST_OUTSIDE_W_M2)) first = i;
    if (!((light.outside_W_m2[i + 1] ?? 0) >= LEAST_OUTSIDE_W_M2) && first >= 0) return true;
    if (lit[k + 1] !== i + 1) first = -1;
  }
  return false;
}

function round(value: number): number {
  return Math.round(value * 10) / 10 + 0;
}
