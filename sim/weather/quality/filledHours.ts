import { HIGHEST_NIGHT_W_M2 } from '../limits.ts';
import type { SunLight } from './SunLight.ts';
import { equalRuns, type Stretch, stretchesOf } from './stretchesOf.ts';

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

/** A stretch of one value, and what shows that nobody measured it. */
export interface RepeatedValue extends Stretch {
  value: number;
  evidence: string;
}

/** Hours with the sun up in a stretch from which equal neighbours are no longer taken as ordinary. */
const ORDINARY_SUN_HOURS = 5;
const LEAST_SUN_HOURS = 4;
/** Such a stretch may come about by chance once in so many records like this one; hours are not independent. */
const RECORDS_PER_CHANCE = 1e5;
/** Values below so many steps of the resolution are coarse: once equal, they tend to stay so. */
const COARSE_STEPS = 20;
const LEVELS_W_M2 = [10, 30, 100, 300, Number.POSITIVE_INFINITY];

/**
 * Stretches in which one value above a sensor's offset stands for hours, so that somebody filled a gap with it: through
 * day and night, or over more hours of the day than chance allows at the record's own rate of equal neighbours, which
 * counts rounding to whole tens as well as calm overcast.
 *
 * in: values, W/m2, NaN missing; light, over the same hours; resolution_W_m2, step in which the values are written
 * out: stretches in order, the measured hour that was repeated among them, for which one it is cannot be told
 * valid: zeros and less are judged by zeroHours
 */
export function repeatedValues(
  values: Float64Array,
  light: SunLight,
  resolution_W_m2: number,
): RepeatedValue[] {
  const isUp = (i: number): boolean => light.sun.upShare[i]! >= 0.5;
  const runs = equalRuns(values);
  const chance = chanceOfEqualNeighbours(values, runs, isUp);
  const found: RepeatedValue[] = [];
  for (const run of runs) {
    const value = values[run.from]!;
    if (!(value > 0)) continue;
    let up = 0;
    let dark = 0;
    for (let i = run.from; i < run.to; i++) {
      if (isUp(i)) up++;
      dark += light.dark[i]!;
    }
    const hours = run.to - run.from;
    const what = `${round(value)} W/m2 in ${hours} hours running`;
    if (value > HIGHEST_NIGHT_W_M2 && dark > 0 && up > 0 && hours >= LEAST_SUN_HOURS) {
      found.push({ ...run, value, evidence: `${what}, through day and night` });
      continue;
    }
    if (up < LEAST_SUN_HOURS) continue;
    const { pairs, share, stay } = chance[levelOf(value)]!;
    const further = value < COARSE_STEPS * resolution_W_m2 ? Math.max(share, stay) : share;
    if (pairs * share * further ** (up - 2) * RECORDS_PER_CHANCE < 1) {
      const percent = round(share * 100);
      found.push({
        ...run,
        value,
        evidence: `${what}, ${up} of them with the sun up, where neighbouring hours are equal in ${percent} percent of cases`,
      });
    }
  }
  return found;
}

function levelOf(value: number): number {
  return LEVELS_W_M2.findIndex((level) => value < level);
}

interface EqualNeighbours {
  pairs: number;
  /** Share of the pairs that are equal. */
  share: number;
  /** Share of those after an equal pair that are equal again. */
  stay: number;
}

/** How often neighbours with the sun up are equal, by level; long runs are left out, for they are what is looked for. */
function chanceOfEqualNeighbours(
  values: Float64Array,
  runs: readonly Stretch[],
  isUp: (i: number) => boolean,
): EqualNeighbours[] {
  const long = new Uint8Array(values.length);
  for (const { from, to } of runs) {
    let up = 0;
    for (let i = from; i < to; i++) if (isUp(i)) up++;
    if (up > ORDINARY_SUN_HOURS) long.fill(1, from, to);
  }
  const pairs = LEVELS_W_M2.map(() => 0);
  const equal = LEVELS_W_M2.map(() => 0);
  const after = LEVELS_W_M2.map(() => 0);
  const again = LEVELS_W_M2.map(() => 0);
  for (let i = 1; i < values.length; i++) {
    const higher = Math.max(values[i - 1]!, values[i]!);
    if (Number.isNaN(higher) || !isUp(i - 1) || !isUp(i) || (long[i - 1] && long[i])) continue;
    const level = levelOf(higher);
    pairs[level]!++;
    const same = values[i - 1] === values[i];
    if (same) equal[level]!++;
    if (values[i - 2] !== values[i - 1]) continue;
    after[level]!++;
    if (same) again[level]!++;
  }
  return pairs.map((all, level) => ({
    pairs: all + 1,
    share: (equal[level]! + 1) / (all + 2),
    stay: (again[level]! + 1) / (after[level]! + 2),
  }));
}

/** A stretch on a straight line, and what shows that nobody measured it. */
export interface StraightLine extends Stretch {
  evidence: string;
}

const FEWEST_POINTS = 4;
/** Points a line needs that stays in the day. A cloudless sky gives at most 4, written in steps of 10 W/m2 at most 6. */
const FEWEST_DAY_POINTS = 8;
const FEWEST_DAY_POINTS_COARSE = 11;
/** Steps of the resolution that it must rise or fall by, for coarse steps make lines of dull mornings. */
const LEAST_DAY_STEPS = 40;
/** Steps from which it is no more coarse. */
const FINE_DAY_STEPS = 200;

/**
 * Stretches in which the light follows a straight line up or down through the night or for more hours of the day than
 * any sky does: a gap filled by interpolation.
 *
 * in: values, W/m2, NaN missing; light, over the same hours; resolution_W_m2, step in which the values are written
 * out: stretches in order, without the measured hours at the two ends of the line
 * valid: lines to half a step of the resolution
 */
export function straightLines(
  values: Float64Array,
  light: SunLight,
  resolution_W_m2: number,
): StraightLine[] {
  const slack = 0.51 * resolution_W_m2 + 1e-6;
  const found: StraightLine[] = [];
  let i = 0;
  while (i + FEWEST_POINTS <= values.length) {
    const end = lineEnd(values, i, slack);
    const points = end - i;
    const line = points >= FEWEST_POINTS ? judge(values, light, i, end, resolution_W_m2) : undefined;
    if (line === undefined) {
      i++;
      continue;
    }
    found.push(line);
    i = end - 1;
  }
  return found;
}

/** The index after the last value that lies on one line through value i. */
function lineEnd(values: Float64Array, i: number, slack: number): number {
  const start = values[i]!;
  if (Number.isNaN(start)) return i;
  let lowest = Number.NEGATIVE_INFINITY;
  let highest = Number.POSITIVE_INFINITY;
  let end = i + 1;
  for (; end < values.length; end++) {
    const rise = values[end]! - start;
    if (Number.isNaN(rise)) break;
    lowest = Math.max(lowest, (rise - slack) / (end - i));
    highest = Math.min(highest, (rise + slack) / (end - i));
    if (lowest > highest) break;
  }
  return end;
}

function judge(
  values: Float64Array,
  light: SunLight,
  from: number,
  end: number,
  resolution_W_m2: number,
): StraightLine | undefined {
  const first = values[from]!;
  const last = values[end - 1]!;
  const rise = Math.abs(last - first);
  if (rise <= 3 * resolution_W_m2 || Math.max(first, last) <= HIGHEST_NIGHT_W_M2) return undefined;
  let dark = 0;
  for (let i = from + 1; i < end - 1; i++) {
    if (light.dark[i] && values[i]! > HIGHEST_NIGHT_W_M2) dark++;
  }
  const points = end - from;
  const steep = rise > LEAST_DAY_STEPS * resolution_W_m2;
  const fewest = rise > FINE_DAY_STEPS * resolution_W_m2 ? FEWEST_DAY_POINTS : FEWEST_DAY_POINTS_COARSE;
  if (dark < 2 && (points < fewest || !steep)) return undefined;
  const ends = `from ${Math.round(first)} to ${Math.round(last)} W/m2`;
  const place = dark > 0 ? `through the night, ${dark} of its hours dark` : 'without a bend';
  return { from: from + 1, to: end - 1, evidence: `a straight line ${ends} over ${points} hours, ${place}` };
}

/**
 * Step in which the values of a column were written, in the column's unit: 10 where they are multiples of ten.
 *
 * in: values, NaN ignored
 * out: the step; 0 where there are fewer than ten different values
 * valid: the 5th percentile of the distances between neighbouring different values, so that a few odd ones do not count
 */
export function resolutionOf(values: Float64Array): number {
  const sorted = values.filter((value) => !Number.isNaN(value)).sort();
  const steps: number[] = [];
  for (let i = 1; i < sorted.length; i++) {
    const step = sorted[i]! - sorted[i - 1]!;
    if (step > 1e-6) steps.push(step);
  }
  if (steps.length < 9) return 0;
  steps.sort((a, b) => a - b);
  return steps[Math.floor(steps.length / 20)]!;
}
