import { HIGHEST_NIGHT_W_M2 } from '../limits.ts';
import { equalRuns } from './equalRuns.ts';
import type { SunLight } from './SunLight.ts';
import type { Stretch } from './stretchesOf.ts';

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

function round(value: number): number {
  return Math.round(value * 10) / 10;
}
