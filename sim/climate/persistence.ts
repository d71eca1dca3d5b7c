import { mean } from 'simple-statistics';
import { power } from '../common/elementary/power.ts';
import { square } from '../common/numeric.ts';
import { randomStream } from '../common/random.ts';
import { daysOffShortest, type RecordedDays } from './RecordedDays.ts';

/**
 * How the weather of days hangs together, in the normal numbers behind their clearness: a part that lasts (an
 * autoregression of first order), a part that is new each day, and a part that a whole winter shares.
 */
export interface Persistence {
  /** Correlation of the lasting part from one day to the next, 0 to below 1. */
  daily: number;
  /** Share of the variance that lasts. */
  lasting: number;
  /** Share of the variance that all days of a winter share. */
  winter: number;
}

/**
 * That of a maritime place at 57.7 N, hourly light of twelve winters (own evaluation of open data of a national weather
 * service): stands in where nobody can learn it. Other places of the north lie between .75 and 1.5 times its
 * autocorrelation of .235 from one day to the next.
 */
export const USUAL_PERSISTENCE: Persistence = { daily: 0.56, lasting: 0.42, winter: 0.01 };

const MOST_LAG = 6;
/** A winter's own part is learned slowly: so many winters weigh as much as what is usual. */
const PRIOR_WINTERS = 10;
/** Days around the shortest whose mean tells winters apart. */
const CORE_DAYS = 45;

/**
 * Fits how days follow each other to the autocorrelation at lags of 1 to 6 days, and what winters have of their own to
 * how far their means differ.
 *
 * in: days; winters learned from; brightness, the normal number behind each day, NaN where unknown
 * out: shares of a variance of 1
 * source: Graham1988 for the normal numbers; two parts because one autoregression forgets too fast (.055 at lag 2 where
 *   .123 was measured)
 */
export function persistenceOf(
  days: RecordedDays,
  winters: readonly number[],
  brightness: Float64Array,
): Persistence {
  const times = timesOf(winters, days.winters.length);
  const within = (d: number) =>
    d < days.count && times[days.winter[d]!]! > 0 && !Number.isNaN(brightness[d]!);
  const at = Array.from({ length: MOST_LAG }, (_, k) => {
    let products = 0;
    let squares = 0;
    for (let d = 0; d < days.count; d++) {
      if (!within(d) || !within(d + k + 1)) continue;
      const weight = times[days.winter[d]!]!;
      products += weight * brightness[d]! * brightness[d + k + 1]!;
      squares += (weight * (square(brightness[d]!) + square(brightness[d + k + 1]!))) / 2;
    }
    return squares > 0 ? products / squares : 0;
  });
  const winter = winterShare(days, winters, brightness, lastingFit(at, USUAL_PERSISTENCE.winter));
  return { ...lastingFit(at, winter), winter };
}

/**
 * How often each winter of a record stands among those that are learned from: one that was drawn twice counts twice.
 *
 * in: winters, indices; count, winters of the record
 */
export function timesOf(winters: readonly number[], count: number): Uint16Array {
  const times = new Uint16Array(count);
  for (const winter of winters) times[winter]!++;
  return times;
}

/** The lasting part that fits autocorrelations best, less what winters share. */
function lastingFit(at: readonly number[], winter: number): Pick<Persistence, 'daily' | 'lasting'> {
  let best = { daily: 0, lasting: 0, off: Number.POSITIVE_INFINITY };
  for (let daily = 0.02; daily < 0.97; daily += 0.01) {
    const powers = at.map((_, k) => power(daily, k + 1));
    const fit = at.reduce((sum, r, k) => sum + (r - winter) * powers[k]!, 0);
    const size = powers.reduce((sum, power) => sum + power * power, 0);
    const lasting = Math.min(1 - winter, Math.max(0, fit / size));
    const off = at.reduce((sum, r, k) => sum + square(r - winter - lasting * powers[k]!), 0);
    if (off < best.off) best = { daily, lasting, off };
  }
  return { daily: best.daily, lasting: best.lasting };
}

/** Variance that winters' means have beyond what days give, drawn towards what is usual. */
function winterShare(
  days: RecordedDays,
  winters: readonly number[],
  brightness: Float64Array,
  { daily, lasting }: Pick<Persistence, 'daily' | 'lasting'>,
): number {
  const cores = new Map<number, number[]>();
  for (let d = 0; d < days.count; d++) {
    if (daysOffShortest(days, d) > CORE_DAYS || Number.isNaN(brightness[d]!)) continue;
    cores.set(days.winter[d]!, [...(cores.get(days.winter[d]!) ?? []), brightness[d]!]);
  }
  const means = winters.flatMap((winter) => (cores.has(winter) ? [mean(cores.get(winter)!)] : []));
  const usual = USUAL_PERSISTENCE.winter;
  if (means.length < 3) return usual;
  const middle = mean(means);
  const seen = means.reduce((sum, value) => sum + square(value - middle), 0) / (means.length - 1);
  const n = 2 * CORE_DAYS + 1;
  const byDays = (lasting * (1 + daily)) / (1 - daily) / n + (1 - lasting) / n;
  const own = Math.max(0, seen - byDays);
  return Math.min(0.1, (usual * PRIOR_WINTERS + own * means.length) / (PRIOR_WINTERS + means.length));
}

/**
 * Normal numbers of consecutive days, mean 0 and variance 1, that hang together so.
 *
 * in: persistence; count; seed; index of the winter: the same numbers for the same seed and index
 */
export function drawBrightness(
  persistence: Persistence,
  count: number,
  seed: number,
  index: number,
): Float64Array {
  const { daily, lasting, winter } = persistence;
  const random = randomStream(seed, 'brightness of days', index);
  const shared = Math.sqrt(winter) * random.normal();
  const fresh = Math.sqrt(Math.max(0, 1 - lasting - winter));
  let last = random.normal();
  return Float64Array.from({ length: count }, () => {
    last = daily * last + Math.sqrt(1 - daily * daily) * random.normal();
    return shared + Math.sqrt(lasting) * last + fresh * random.normal();
  });
}
