import { power } from '../../common/elementary/power.ts';
import { HOUR_MS, utcText } from '../../common/time.ts';
import { HIGHEST_NIGHT_W_M2 } from '../limits.ts';
import { chanceOf, type FilledStretch, type LightSeries } from './filledHours.ts';
import { daysOf, type SunLight } from './SunLight.ts';
import { hoursOf, overlap, type Stretch, stretchesOf } from './stretchesOf.ts';

/** In coarser steps days are alike, cloudless ones to the last digit. */
const COARSEST_W_M2 = 5;
const LEAST_COPIED_HOURS = 5;
/** Such a copy, or such a run of days, may come about by chance once in so many records like this one; hours of a day are not independent. */
const RECORDS_PER_CHANCE = 1e6;
/** Days before the original with which the copy is compared as well. */
const DAYS_BESIDE = 12;
/** Hours that count towards the chance: what follows a day that is alike is likely to be alike. */
const MOST_TELLING_HOURS = 12;
const MOST_EARLIER_DAYS = 20;

/**
 * Stretches that repeat an earlier day (or several) value for value: gaps filled with the day before, or with another
 * year. The chance of equal values is the record's own, over two days, and that of the days before the original, so
 * that cloudless days in coarse steps do not count.
 *
 * in: series
 * out: stretches in order, from the first to the last telling hour (sun up, light above five steps of the resolution)
 * valid: records in steps of 5 W/m2 and finer; copies a whole number of hours later; days with
 * fewer than five telling hours are left alone
 */
export function repeatedDays({ values, light, resolution_W_m2 }: LightSeries): FilledStretch[] {
  if (resolution_W_m2 > COARSEST_W_M2) return [];
  const least = Math.max(HIGHEST_NIGHT_W_M2, 5 * resolution_W_m2);
  const tells = (i: number): boolean => values[i]! > least && light.sun.upShare[i]! >= 0.5;
  const noons = noonHours(light).filter((n) => [n - 1, n, n + 1].every(tells));
  const earlier = new Map<string, number[]>();
  const usual = chanceAt(values, tells, 48);
  const found: FilledStretch[] = [];
  for (const noon of noons) {
    const key = `${values[noon - 1]} ${values[noon]} ${values[noon + 1]}`;
    const same = earlier.get(key) ?? [];
    earlier.set(key, same.length < MOST_EARLIER_DAYS ? [...same, noon] : same);
    if (noon < (found.at(-1)?.to ?? 0)) continue;
    let best: (Stretch & { hours: number; lag: number }) | undefined;
    for (const before of same) {
      const lag = noon - before;
      const copy = extent(values, tells, noon, lag);
      if (copy.hours < LEAST_COPIED_HOURS || copy.hours <= (best?.hours ?? 0)) continue;
      // Days next to each other are more alike than any others.
      const share = Math.max(lag > 24 ? usual : power(usual, 0.75), chanceBeside(values, tells, copy, lag));
      const trials = noons.length * (lag === 24 ? 1 : noons.length);
      if (trials * power(share, Math.min(copy.hours, MOST_TELLING_HOURS)) * RECORDS_PER_CHANCE < 1)
        best = { ...copy, lag };
    }
    if (best === undefined) continue;
    const { from, to, hours, lag } = best;
    const original = utcText(light.sun.start_ms + (from - lag) * HOUR_MS);
    found.push({
      from,
      to,
      evidence: `${hours} hours of light equal to those from ${original}, value for value`,
    });
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

/** Chance of equal values between the copy and the days before its original: high where days are alike, as cloudless ones. */
function chanceBeside(
  values: Float64Array,
  tells: (i: number) => boolean,
  copy: Stretch,
  lag: number,
): number {
  let nearest = 0;
  let pairs = 0;
  let equal = 0;
  for (let day = 1; day <= DAYS_BESIDE; day++) {
    for (let i = copy.from; i < copy.to; i++) {
      const before = i - lag - 24 * day;
      // Inside the original of a copy of several days, the day before may be a copy too.
      if (before < 0 || before >= copy.from - lag || !tells(i) || Number.isNaN(values[before]!)) continue;
      pairs++;
      if (values[i] === values[before]) equal++;
    }
    // The nearest days are the most alike; with enough hours they are judged alone, too.
    if (day === 3 && pairs > 25) nearest = chanceOf(equal, pairs);
  }
  return pairs === 0 ? 0 : Math.max(nearest, chanceOf(equal, pairs));
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
  return chanceOf(equal, pairs);
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

/** In coarser steps cloudless days are alike. */
const COARSEST_CLEAR_W_M2 = 2;
/** Light of so many steps of the resolution tells; in less, rounding makes days alike. */
const TELLING_STEPS = 20;
/** A day with fewer telling hours is left alone. */
const LEAST_DRAWN_HOURS = 3;
/** Days running that are drawn, and hours in them. */
const LEAST_DAYS = 4;
const LEAST_RUN_HOURS = 20;
/** Cloudless days follow each other as if drawn; of them so many days running are none. */
const LEAST_CLEAR_DAYS = 10;
/** Mean share of the cleanest cloudless sky from which a day counts as cloudless. */
const CLEAR_SHARE = 0.7;

/** How a day may be drawn from those around it: whether hour i is so, to rounding. */
interface Way {
  words: string;
  fits: (i: number, day: Day) => boolean;
}

/** A day of the record, its telling hours, and what it is made of. */
interface Day extends Stretch {
  hours: number[];
  clear: boolean;
  /** Its light over that of the day before. */
  scale: number;
}

/**
 * Runs of days whose light goes hour by hour in a straight line from the day before to the day after, or is that of the
 * day before times one factor: months filled from their edges.
 *
 * in: series
 * out: stretches of whole days, in order
 * valid: records in steps of 5 W/m2 and finer; where the record's other days fit by chance too, as in coarse steps, longer runs are wanted
 */
export function drawnDays(series: LightSeries): FilledStretch[] {
  const { values, resolution_W_m2 } = series;
  if (resolution_W_m2 > COARSEST_W_M2) return [];
  const slack = Math.max(resolution_W_m2, 1e-6);
  const at = (i: number): number => values[i] ?? Number.NaN;
  const days = tellingDays(series, slack);
  const lines = runsOf(values, days, slack, {
    words: 'the light of every hour goes in a straight line from day to day',
    fits: (i) => Math.abs(at(i - 24) - 2 * at(i) + at(i + 24)) <= 2.02 * slack,
  });
  const scaled = runsOf(values, days, slack, {
    words: 'the light of every hour is that of the day before times one factor',
    fits: (i, { scale }) => Math.abs(at(i) - scale * at(i - 24)) <= 0.6 * (1 + scale) * slack,
  });
  const alone = scaled.filter((run) => !lines.some((line) => overlap(run, line)));
  return [...lines, ...alone].toSorted((a, b) => a.from - b.from);
}

function tellingDays({ values, light }: LightSeries, slack: number): Day[] {
  const least = Math.max(HIGHEST_NIGHT_W_M2, TELLING_STEPS * slack);
  return daysOf(light)
    .filter(({ from, to }) => to - from === 24)
    .map((day) => {
      const hours = hoursOf(day).filter((i) => values[i]! >= least);
      const total = (value: (i: number) => number): number => hours.reduce((sum, i) => sum + value(i), 0);
      const own = total((i) => values[i]!);
      return {
        ...day,
        hours,
        clear: own >= CLEAR_SHARE * total((i) => light.cleanest_W_m2[i]!),
        scale: own / total((i) => values[i - 24] ?? Number.NaN),
      };
    });
}

function runsOf(
  values: Float64Array,
  days: readonly Day[],
  slack: number,
  { words, fits }: Way,
): FilledStretch[] {
  const hoursIn = (some: readonly Day[]): number => some.reduce((sum, { hours }) => sum + hours.length, 0);
  const fitting = days.map((day) => day.hours.filter((i) => fits(i, day)).length);
  const isDrawn = days.map(
    ({ hours }, d) => hours.length >= LEAST_DRAWN_HOURS && fitting[d] === hours.length,
  );
  const fit = fitting.reduce((sum, hours, d) => sum + (isDrawn[d] ? 0 : hours), 0);
  const chance = chanceOf(fit, hoursIn(days.filter((_, d) => !isDrawn[d])));
  const isRun = (drawn: readonly Day[]): boolean => {
    const mostlyClear = drawn.filter(({ clear }) => clear).length > drawn.length / 2;
    if (mostlyClear && slack > COARSEST_CLEAR_W_M2) return false;
    const hours = hoursIn(drawn);
    if (drawn.length < (mostlyClear ? LEAST_CLEAR_DAYS : LEAST_DAYS) || hours < LEAST_RUN_HOURS) return false;
    // Hours of a day go together: half of them count.
    if (days.length * power(chance, hours / 2) * RECORDS_PER_CHANCE >= 1) return false;
    // What only repeats is told elsewhere; nothing is drawn where nothing changes.
    return drawn.some((day) => day.hours.some((i) => values[i] !== values[i - 24]));
  };
  return stretchesOf(days.length, (d) => isDrawn[d]!)
    .map((run) => days.slice(run.from, run.to))
    .filter(isRun)
    .map((drawn) => ({
      from: drawn[0]!.from,
      to: drawn.at(-1)!.to,
      evidence: `${drawn.length} days in which ${words}, as where a gap is filled from its edges`,
    }));
}
