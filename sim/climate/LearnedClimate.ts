import { ascending } from 'd3-array';
import { errorFunction, probit } from 'simple-statistics';
import { type Persistence, persistenceOf, timesOf } from './persistence.ts';
import { daysOffShortest, type RecordedDays } from './RecordedDays.ts';

/** What winters are made from: the days of a record by season and clearness, and how days follow each other. */
export interface LearnedClimate {
  days: RecordedDays;
  /** Winters learned from, as indices of the record's; one that was drawn twice stands twice. */
  winters: readonly number[];
  /** For each day of the season the recorded days of the same time of the year, dullest first. */
  pools: readonly Uint32Array[];
  persistence: Persistence;
}

/** Days of the year to either side that are of the same season. */
export const SEASON_DAYS = 15;
export const YEAR_DAYS = 365;

/**
 * Learns from the days of a record what winters may be like at its place.
 *
 * in: days; winters, indices of the winters to learn from: all that hold their dark months unless given; those of a
 *   bootstrap may stand there twice
 * out: the climate
 */
export function learnClimate(days: RecordedDays, winters = completeWinters(days)): LearnedClimate {
  const bySeason: number[][] = Array.from({ length: YEAR_DAYS }, () => []);
  const times = timesOf(winters, days.winters.length);
  for (let d = 0; d < days.count; d++) {
    if (Number.isNaN(days.clearness[d]!)) continue;
    for (let again = times[days.winter[d]!]!; again > 0; again--) bySeason[days.season[d]!]!.push(d);
  }
  const pools = bySeason.map((_, season) => {
    const pool: number[] = [];
    for (let off = -SEASON_DAYS; off <= SEASON_DAYS; off++)
      pool.push(...bySeason[(season + off + YEAR_DAYS) % YEAR_DAYS]!);
    return Uint32Array.from(pool.sort((a, b) => ascending(days.clearness[a], days.clearness[b]) || a - b));
  });
  const brightness = brightnessOf(days, pools);
  return { days, winters, pools, persistence: persistenceOf(days, winters, brightness) };
}

/** Share of the days of a winter's dark half that must be known for it to be learned from. */
const KNOWN_SHARE = 0.95;
/** The dark half of a year: days of the season within so many of the shortest. */
const DARK_HALF_DAYS = 91;

/**
 * Winters whose dark half is known.
 * in: days
 * out: indices into days.winters
 */
export function completeWinters(days: RecordedDays): number[] {
  const { winters, winter, clearness, sunless, count } = days;
  const known = new Uint16Array(winters.length);
  for (let d = 0; d < count; d++) {
    if (daysOffShortest(days, d) > DARK_HALF_DAYS) continue;
    if (sunless[d] || !Number.isNaN(clearness[d]!)) known[winter[d]!]!++;
  }
  return winters.flatMap((_, w) => (known[w]! >= KNOWN_SHARE * (2 * DARK_HALF_DAYS + 1) ? [w] : []));
}

/** The normal number behind each day: where its clearness stands among days of its season; NaN where none is known. */
function brightnessOf(days: RecordedDays, pools: readonly Uint32Array[]): Float64Array {
  return days.clearness.map((clearness, d) => {
    const pool = pools[days.season[d]!]!;
    if (Number.isNaN(clearness) || pool.length === 0) return Number.NaN;
    return probit((rankIn(days, pool, clearness) + 0.5) / (pool.length + 1));
  });
}

/** How many days of a pool are duller, equal ones counting half. */
function rankIn({ clearness: of }: RecordedDays, pool: Uint32Array, clearness: number): number {
  let low = 0;
  let high = pool.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (of[pool[middle]!]! < clearness) low = middle + 1;
    else high = middle;
  }
  let equal = low;
  while (equal < pool.length && of[pool[equal]!]! === clearness) equal++;
  return (low + equal) / 2;
}

/** Share of a normal distribution below z, good to 1e-7. */
export function normalShare(z: number): number {
  return (1 + errorFunction(z / Math.SQRT2)) / 2;
}
