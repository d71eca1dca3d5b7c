import { greatest, range, sum } from 'd3-array';
import { power } from '../../common/elementary/power.ts';
import { HOUR_MS, utcText } from '../../common/time.ts';
import { HIGHEST_NIGHT_W_M2 } from '../limits.ts';
import { chanceOf, type FilledStretch, type LightSeries } from './filledHours.ts';
import { daysOf, type SunLight } from './SunLight.ts';
import { overlap, type Stretch, stretchesOf } from './stretchesOf.ts';

/** In coarser steps days are alike, cloudless ones to the last digit. */
const COARSEST_W_M2 = 5;
const LEAST_COPIED_HOURS = 5;
/** Such a copy, or such a run of days, may come about by chance once in so many records like this one; hours of a day are not independent. */
const RECORDS_PER_CHANCE = 1e6;
/** Days before the original with which the copy is compared as well. */
const DAYS_BESIDE = 12;
/** Of these the nearest are the most alike: with so many hours they are judged alone, too. */
const NEAREST_DAYS = 3;
const LEAST_NEAREST_HOURS = 26;
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
  const twoDays = range(48, values.length).filter((i) => tells(i) && tells(i - 48));
  const usual = chanceOf(twoDays.filter((i) => values[i] === values[i - 48]).length, twoDays.length);
  const earlier = new Map<string, number[]>();
  const found: FilledStretch[] = [];
  for (const noon of noons) {
    const key = `${values[noon - 1]} ${values[noon]} ${values[noon + 1]}`;
    const same = earlier.get(key) ?? [];
    earlier.set(key, same.length < MOST_EARLIER_DAYS ? [...same, noon] : same);
    if (noon < (found.at(-1)?.to ?? 0)) continue;
    const copies = same
      .map((before) => ({ lag: noon - before, hours: copiedHours(values, tells, noon, noon - before) }))
      .filter(({ lag, hours }) => {
        if (hours.length < LEAST_COPIED_HOURS) return false;
        // Days next to each other are more alike than any others.
        const share = Math.max(lag > 24 ? usual : power(usual, 0.75), chanceBeside(values, hours, lag));
        const trials = noons.length * (lag === 24 ? 1 : noons.length);
        return trials * power(share, Math.min(hours.length, MOST_TELLING_HOURS)) * RECORDS_PER_CHANCE < 1;
      });
    const best = greatest(copies, ({ hours }) => hours.length);
    if (best === undefined) continue;
    const { lag, hours } = best;
    const [from, to] = [hours[0]!, hours.at(-1)! + 1];
    const original = utcText(light.sun.start_ms + (from - lag) * HOUR_MS);
    const evidence = `${hours.length} hours of light equal to those from ${original}, value for value`;
    found.push({ from, to, evidence });
  }
  return found;
}

/** The telling hours around one that equal the hours `lag` before without a break, in order. */
function copiedHours(
  values: Float64Array,
  tells: (i: number) => boolean,
  middle: number,
  lag: number,
): number[] {
  const reach = (step: 1 | -1): number[] => {
    const hours: number[] = [];
    for (let i = middle + step; i < values.length && values[i] === values[i - lag]; i += step)
      if (tells(i)) hours.push(i);
    return hours;
  };
  return [...reach(-1).reverse(), middle, ...reach(1)];
}

/** Chance of equal values between a copy and the days before its original: high where days are alike, as cloudless ones. */
function chanceBeside(values: Float64Array, copy: readonly number[], lag: number): number {
  const among = (days: number) => {
    const pairs = range(1, days + 1)
      .flatMap((day) => copy.map((i) => ({ i, before: i - lag - 24 * day })))
      // Inside the original of a copy of several days, the day before may be a copy too.
      .filter(({ before }) => before < copy[0]! - lag && !Number.isNaN(values[before] ?? Number.NaN));
    const equal = pairs.filter(({ i, before }) => values[i] === values[before]);
    return { hours: pairs.length, chance: chanceOf(equal.length, pairs.length) };
  };
  const [nearest, all] = [among(NEAREST_DAYS), among(DAYS_BESIDE)];
  return Math.max(nearest.hours < LEAST_NEAREST_HOURS ? 0 : nearest.chance, all.hours === 0 ? 0 : all.chance);
}

/** Hours in which the sun passes its highest point. */
function noonHours({ sun: { hourAngle_deg, count } }: SunLight): number[] {
  return range(1, count - 1).filter(
    (i) => hourAngle_deg[i]! <= 0 && hourAngle_deg[i + 1]! > 0 && hourAngle_deg[i]! > -30,
  );
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
  const runsOf = (words: string, fits: (i: number, day: Day) => boolean): FilledStretch[] =>
    drawnRuns(values, days, slack, fits).map((drawn) => ({
      from: drawn[0]!.from,
      to: drawn.at(-1)!.to,
      evidence: `${drawn.length} days in which the light of every hour ${words}, as where a gap is filled from its edges`,
    }));
  const lines = runsOf(
    'goes in a straight line from day to day',
    (i) => Math.abs(at(i - 24) - 2 * at(i) + at(i + 24)) <= 2.02 * slack,
  );
  const scaled = runsOf(
    'is that of the day before times one factor',
    (i, { scale }) => Math.abs(at(i) - scale * at(i - 24)) <= 0.6 * (1 + scale) * slack,
  );
  const alone = scaled.filter((run) => !lines.some((line) => overlap(run, line)));
  return [...lines, ...alone].toSorted((a, b) => a.from - b.from);
}

function tellingDays({ values, light }: LightSeries, slack: number): Day[] {
  const least = Math.max(HIGHEST_NIGHT_W_M2, TELLING_STEPS * slack);
  return daysOf(light)
    .filter(({ from, to }) => to - from === 24)
    .map((day) => {
      const hours = range(day.from, day.to).filter((i) => values[i]! >= least);
      const own = sum(hours, (i) => values[i]!);
      const before = hours.reduce((total, i) => total + (values[i - 24] ?? Number.NaN), 0);
      const clear = own >= CLEAR_SHARE * sum(hours, (i) => light.cleanest_W_m2[i]!);
      return { ...day, hours, clear, scale: own / before };
    });
}

/** Runs of days of which every telling hour fits, where that is no chance. */
function drawnRuns(
  values: Float64Array,
  days: readonly Day[],
  slack: number,
  fits: (i: number, day: Day) => boolean,
): Day[][] {
  const hoursIn = (some: readonly Day[]): number => sum(some, ({ hours }) => hours.length);
  const fitting = days.map((day) => day.hours.filter((i) => fits(i, day)).length);
  const isDrawn = days.map(
    ({ hours }, d) => hours.length >= LEAST_DRAWN_HOURS && fitting[d] === hours.length,
  );
  const byChance = sum(fitting, (hours, d) => (isDrawn[d] ? 0 : hours));
  const chance = chanceOf(byChance, hoursIn(days.filter((_, d) => !isDrawn[d])));
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
    .filter(isRun);
}
