import { HIGHEST_NIGHT_W_M2 } from '../limits.ts';
import { utcText } from '../utcText.ts';
import type { SunLight } from './SunLight.ts';
import type { Stretch } from './stretchesOf.ts';

/** A stretch that stands in the record before, value for value. */
export interface RepeatedDay extends Stretch {
  evidence: string;
}

const LEAST_HOURS = 4;
const RECORDS_PER_CHANCE = 1000;
const MOST_EARLIER_DAYS = 20;

/**
 * Stretches that repeat an earlier day (or several) value for value: gaps filled with the day before, or with another
 * year. The chance of equal values is the record's own, from day to day, so that a cloudless desert in coarse steps
 * does not count.
 *
 * in: values, W/m2, NaN missing; light, over the same hours; resolution_W_m2, step in which the values are written
 * out: stretches in order, from the first to the last telling hour (sun up, light above five steps of the resolution)
 * valid: days copied by a whole number of hours; days whose noon is too dark to tell are left alone
 */
export function repeatedDays(values: Float64Array, light: SunLight, resolution_W_m2: number): RepeatedDay[] {
  const least = Math.max(HIGHEST_NIGHT_W_M2, 5 * resolution_W_m2);
  const tells = (i: number): boolean => values[i]! > least && light.sun.upShare[i]! >= 0.5;
  const noons = noonHours(light).filter((n) => [n - 1, n, n + 1].every(tells));
  const earlier = new Map<string, number[]>();
  const trials = noons.length * noons.length;
  const chances = new Map<number, number>();
  const found: RepeatedDay[] = [];
  let done = 0;
  for (const noon of noons) {
    const key = `${values[noon - 1]} ${values[noon]} ${values[noon + 1]}`;
    const same = earlier.get(key) ?? [];
    earlier.set(key, same.length < MOST_EARLIER_DAYS ? [...same, noon] : same);
    if (noon < done) continue;
    let best: (RepeatedDay & { hours: number }) | undefined;
    for (const before of same) {
      const lag = noon - before;
      const copy = extent(values, tells, noon, lag);
      if (copy.hours < LEAST_HOURS || copy.hours <= (best?.hours ?? 0)) continue;
      const share = chances.get(lag) ?? chanceNear(values, tells, lag);
      chances.set(lag, share);
      if (trials * share ** copy.hours * RECORDS_PER_CHANCE >= 1) continue;
      const from = utcText(light.sun.start_ms + (copy.from - lag) * 3_600_000);
      best = {
        ...copy,
        evidence: `${copy.hours} hours of light equal to those from ${from}, value for value`,
      };
    }
    if (best === undefined) continue;
    const { hours: _, ...stretch } = best;
    found.push(stretch);
    done = best.to;
  }
  return found;
}

/** How far the equality with the hours `lag` before reaches around an hour, trimmed to telling hours. */
function extent(
  values: Float64Array,
  tells: (i: number) => boolean,
  middle: number,
  lag: number,
): Stretch & { hours: number } {
  const copy = { from: middle, to: middle + 1, hours: 1 };
  for (const step of [-1, 1]) {
    for (
      let i = middle + step;
      i - lag >= 0 && i < values.length && values[i] === values[i - lag];
      i += step
    ) {
      if (!tells(i)) continue;
      copy.hours++;
      if (step < 0) copy.from = i;
      else copy.to = i + 1;
    }
  }
  return copy;
}

/** Chance of equal values a day beside a lag; not at the lag, for many copies would raise it. */
function chanceNear(values: Float64Array, tells: (i: number) => boolean, lag: number): number {
  const longer = chanceAt(values, tells, lag + 24);
  const shorter = lag > 24 ? chanceAt(values, tells, lag - 24) : 0;
  // Days next to each other are more alike than any others.
  return Math.max(longer, shorter) ** (lag > 24 ? 1 : 0.75);
}

/** Share of the telling hours that equal the hour `lag` before. */
function chanceAt(values: Float64Array, tells: (i: number) => boolean, lag: number): number {
  let pairs = 0;
  let equal = 0;
  for (let i = lag; i < values.length; i++) {
    if (!tells(i) || !tells(i - lag)) continue;
    pairs++;
    if (values[i] === values[i - lag]) equal++;
  }
  return (equal + 1) / (pairs + 2);
}

/** Hours in which the sun passes its highest point. */
function noonHours(light: SunLight): number[] {
  const { hourAngle_deg, count } = light.sun;
  const hours: number[] = [];
  for (let i = 1; i < count - 1; i++) {
    if (hourAngle_deg[i]! <= 0 && hourAngle_deg[i + 1]! > 0 && hourAngle_deg[i]! > -30) hours.push(i);
  }
  return hours;
}
