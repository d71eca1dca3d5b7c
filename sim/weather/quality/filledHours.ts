import { bisectRight, group, max, mean, range } from 'd3-array';
import { power } from '../../common/elementary/power.ts';
import { tenths } from '../../common/numeric.ts';
import { HIGHEST_NIGHT_W_M2 } from '../limits.ts';
import type { SunLight } from './SunLight.ts';
import { equalRuns, overlap, type Stretch, stretchesOf } from './stretchesOf.ts';

/** A column of irradiance that is looked through for gaps which somebody upstream has filled. */
export interface LightSeries {
  /** W/m2, NaN missing. */
  values: Float64Array;
  /** Over the same hours. */
  light: SunLight;
  /** Step in which the values are written. */
  resolution_W_m2: number;
}

/** A stretch that nobody measured, and what shows it. */
export interface FilledStretch extends Stretch {
  evidence: string;
}

/** A chance seen in so many of so many cases, never quite 0. */
export function chanceOf(hits: number, cases: number): number {
  return (hits + 1) / (cases + 2);
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
  const steps = sorted.map((value, i) => value - (sorted[i - 1] ?? value)).filter((step) => step > 1e-6);
  return steps.length < 9 ? 0 : steps.sort()[Math.floor(steps.length / 20)]!;
}

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
 * in: series
 * out: stretches from the first to the last hour in which light is due, nights between them included
 */
export function zeroHours(series: LightSeries): FilledStretch[] {
  const { values, light, resolution_W_m2 } = series;
  const days = stretchesOf(values.length, (i) => light.outside_W_m2[i]! >= LEAST_OUTSIDE_W_M2);
  const still = equalRuns(values).flatMap((run) => tooDark(series, run, days));
  const margin = Math.max(resolution_W_m2, OFFSET_W_M2);
  const least = (i: number): number => DARKEST_SHARE * light.outside_W_m2[i]!;
  const changing = stretchesOf(values.length, (i) => least(i) >= margin && values[i]! + margin < least(i))
    .filter(({ from, to }) => to - from >= LEAST_HOURS)
    .filter((stretch) => !still.some((other) => overlap(stretch, other)))
    .map(({ from, to }) => {
      const most = tenths(max(values.subarray(from, to))!);
      const evidence = `at most ${most} W/m2 in ${to - from} hours with the sun up, less than one percent of what is due outside the air`;
      return { from, to, evidence };
    });
  return [...still, ...changing].toSorted((a, b) => a.from - b.from);
}

/** The part of a run of one value in which that value cannot be; none where it can. */
function tooDark(
  { values, light, resolution_W_m2 }: LightSeries,
  run: Stretch,
  days: readonly Stretch[],
): FilledStretch[] {
  const value = values[run.from]!;
  const limit = Math.max(value, 0) + Math.max(resolution_W_m2, LEAST_DUE_W_M2);
  const outside = (i: number): number => light.outside_W_m2[i]!;
  const lit = range(run.from, run.to).filter((i) => outside(i) >= LEAST_OUTSIDE_W_M2);
  if (lit.length < LEAST_HOURS) return [];
  const holdsDay = days.some((day) => run.from <= day.from && day.to <= run.to);
  const whole = holdsDay && DARKEST_DAY_SHARE * mean(lit, outside)! >= limit + OFFSET_W_M2;
  const telling = whole ? lit : lit.filter((i) => DARKEST_SHARE * outside(i) >= limit);
  if (telling.length < LEAST_HOURS) return [];
  const most = Math.round(max(telling, outside)!);
  const evidence = `${tenths(value)} W/m2 without change in ${telling.length} hours with the sun up, while up to ${most} W/m2 came in outside the air`;
  return [{ from: telling[0]!, to: telling.at(-1)! + 1, evidence }];
}

/** Hours with the sun up in a stretch from which equal neighbours are no longer taken as ordinary. */
const ORDINARY_SUN_HOURS = 5;
const LEAST_SUN_HOURS = 4;
/** Such a stretch may come about by chance once in so many records like this one; hours are not independent. */
const RECORDS_PER_CHANCE = 1e5;
/** Values below so many steps of the resolution are coarse: once equal, they tend to stay so. */
const COARSE_STEPS = 20;
const LEVELS_W_M2 = [10, 30, 100, 300];

/**
 * Stretches in which one value above a sensor's offset stands for hours, so that somebody filled a gap with it: through
 * day and night, or over more hours of the day than chance allows at the record's own rate of equal neighbours, which
 * counts rounding to whole tens as well as calm overcast.
 *
 * in: series
 * out: stretches in order, the measured hour that was repeated among them, for which one it is cannot be told
 * valid: zeros and less are judged by zeroHours
 */
export function repeatedValues({ values, light, resolution_W_m2 }: LightSeries): FilledStretch[] {
  const isUp = (i: number): boolean => light.sun.upShare[i]! >= 0.5;
  const runs = equalRuns(values).map(({ from, to }) => ({
    from,
    to,
    up: range(from, to).filter(isUp).length,
  }));
  const long = new Uint8Array(values.length);
  for (const { from, to, up } of runs) if (up > ORDINARY_SUN_HOURS) long.fill(1, from, to);
  const isSame = (i: number): boolean => values[i - 1] === values[i];
  const higher = (i: number): number => Math.max(values[i - 1]!, values[i]!);
  const neighbours = range(1, values.length).filter(
    (i) => isUp(i - 1) && isUp(i) && !(long[i - 1] && long[i]) && !Number.isNaN(higher(i)),
  );
  const ofLevel = group(neighbours, (i) => levelOf(higher(i)));
  return runs.flatMap(({ from, to, up }) => {
    const value = values[from]!;
    const what = `${tenths(value)} W/m2 in ${to - from} hours running`;
    const throughNight = up > 0 && to - from >= LEAST_SUN_HOURS && light.dark.subarray(from, to).includes(1);
    if (value > HIGHEST_NIGHT_W_M2 && throughNight)
      return [{ from, to, evidence: `${what}, through day and night` }];
    if (!(value > 0) || up < LEAST_SUN_HOURS) return [];
    const pairs = ofLevel.get(levelOf(value)) ?? [];
    const share = shareOf(pairs, isSame);
    const afterEqual = shareOf(
      pairs.filter((i) => isSame(i - 1)),
      isSame,
    );
    const further = value < COARSE_STEPS * resolution_W_m2 ? Math.max(share, afterEqual) : share;
    if ((pairs.length + 1) * share * power(further, up - 2) * RECORDS_PER_CHANCE >= 1) return [];
    const usual = `neighbouring hours are equal in ${tenths(share * 100)} percent of cases`;
    return [{ from, to, evidence: `${what}, ${up} of them with the sun up, where ${usual}` }];
  });
}

function levelOf(value: number): number {
  return bisectRight(LEVELS_W_M2, value);
}

/** Chance of what holds of some hours. */
function shareOf(hours: readonly number[], holds: (i: number) => boolean): number {
  return chanceOf(hours.filter(holds).length, hours.length);
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
 * in: series
 * out: stretches in order, without the measured hours at the two ends of the line
 * valid: lines to half a step of the resolution
 */
export function straightLines(series: LightSeries): FilledStretch[] {
  const slack = 0.51 * series.resolution_W_m2 + 1e-6;
  const found: FilledStretch[] = [];
  for (let i = 0; i + FEWEST_POINTS <= series.values.length; i++) {
    const end = lineEnd(series.values, i, slack);
    const words = end - i >= FEWEST_POINTS ? lineWords(series, i, end) : undefined;
    if (words === undefined) continue;
    found.push({ from: i + 1, to: end - 1, evidence: words });
    // The end of a line may begin the next.
    i = end - 2;
  }
  return found;
}

/** The index after the last value that lies on one line through value i. */
function lineEnd(values: Float64Array, i: number, slack: number): number {
  let lowest = Number.NEGATIVE_INFINITY;
  let highest = Number.POSITIVE_INFINITY;
  let end = i + 1;
  for (; end < values.length; end++) {
    const rise = values[end]! - values[i]!;
    if (Number.isNaN(rise)) break;
    lowest = Math.max(lowest, (rise - slack) / (end - i));
    highest = Math.min(highest, (rise + slack) / (end - i));
    if (lowest > highest) break;
  }
  return end;
}

/** What shows that nobody measured a line; undefined where a sky may draw it. */
function lineWords(
  { values, light, resolution_W_m2 }: LightSeries,
  from: number,
  end: number,
): string | undefined {
  const [first, last, points] = [values[from]!, values[end - 1]!, end - from];
  const rise = Math.abs(last - first);
  if (rise <= 3 * resolution_W_m2 || Math.max(first, last) <= HIGHEST_NIGHT_W_M2) return undefined;
  const dark = range(from + 1, end - 1).filter(
    (i) => light.dark[i] === 1 && values[i]! > HIGHEST_NIGHT_W_M2,
  ).length;
  const steep = rise > LEAST_DAY_STEPS * resolution_W_m2;
  const fewest = rise > FINE_DAY_STEPS * resolution_W_m2 ? FEWEST_DAY_POINTS : FEWEST_DAY_POINTS_COARSE;
  if (dark < 2 && (points < fewest || !steep)) return undefined;
  const place = dark > 0 ? `through the night, ${dark} of its hours dark` : 'without a bend';
  return `a straight line from ${Math.round(first)} to ${Math.round(last)} W/m2 over ${points} hours, ${place}`;
}
