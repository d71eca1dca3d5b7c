import { mean, quantile } from 'simple-statistics';
import { HOUR_MS } from '../common/time.ts';
import { type LearnedClimate, learnClimate } from './LearnedClimate.ts';
import { DAY_H, type RecordedDays } from './RecordedDays.ts';
import type { ClimateSection } from './schema.ts';

/** Shares of the days whose clearness is kept, closer at the ends, where lamps fail or fill. */
const SHARES = [0, 0.02, 0.05, 0.1, 0.15, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 0.98, 1];
/** Days of a month that tell how its clearness spreads. */
const LEAST_DAYS = 28;
/** Depth from which snow is said to lie, m: it whitens the ground. */
const WHITE_M = 0.02;

/**
 * What a record says of its months, in the form of a climate that can be read and edited.
 *
 * in: days; winters, indices of those to learn from (`completeWinters` by default); from, what it is, in words
 * out: the section, sound, its numbers rounded; a month without days takes those of the nearest one that has some
 * valid: hours of the record are not kept
 */
export function learnedMonths(
  days: RecordedDays,
  winters: readonly number[] | undefined,
  from: string,
): ClimateSection {
  const climate = learnClimate(days, winters === undefined ? undefined : [...winters]);
  const months = daysByMonth(climate);
  const ofMonth = <Value>(value: (days: readonly number[]) => Value) =>
    months.map((of, month) => value(of.length > 0 ? of : nearest(months, month, 1)));
  const { record, hour } = days;
  const of = (column: Float64Array, d: number) => column.subarray(hour[d]!, hour[d]! + DAY_H);
  const { persistence } = climate;
  const { snowDepth_m } = record;
  return {
    learned_from: from,
    learned_winters: climate.winters.length,
    persistence: {
      daily: rounded(persistence.daily, 2),
      lasting: rounded(persistence.lasting, 3),
      winter: rounded(persistence.winter, 3),
    },
    air_degC: ofMonth((list) => rounded(mean(list.map((d) => mean(Array.from(of(record.air_degC, d))))), 1)),
    air_range_K: ofMonth((list) =>
      rounded(
        mean(list.map((d) => Math.max(...of(record.air_degC, d)) - Math.min(...of(record.air_degC, d)))),
        1,
      ),
    ),
    ...(snowDepth_m === undefined
      ? {}
      : {
          snow_days: ofMonth((list) => list.filter((d) => mean(Array.from(of(snowDepth_m, d))) >= WHITE_M))
            .map(
              (white, month) => (white.length / Math.max(1, months[month]!.length)) * DAYS_OF_MONTH[month]!,
            )
            .map((white) => rounded(white, 1)),
        }),
    clearness_shares: { days: SHARES, months: sharesByMonth(days, months) },
  };
}

const DAYS_OF_MONTH = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/** Days of the winters learned from by calendar month; those of a winter drawn twice stand twice. */
function daysByMonth({ days, winters }: LearnedClimate): number[][] {
  const months: number[][] = Array.from({ length: 12 }, () => []);
  for (const winter of winters) {
    for (let d = 0; d < days.count; d++) {
      if (days.winter[d] !== winter) continue;
      months[new Date(days.record.start_ms + (days.hour[d]! + 12) * HOUR_MS).getUTCMonth()]!.push(d);
    }
  }
  return months;
}

/** Of each month the clearness at the shares; null where the sun stays down. */
function sharesByMonth(days: RecordedDays, months: readonly number[][]): (number[] | null)[] {
  const known = months.map((list) => list.filter((d) => !Number.isNaN(days.clearness[d]!)));
  return known.map((list, month) => {
    const all = months[month]!;
    if (all.length > 0 && all.every((d) => days.sunless[d])) return null;
    const clearness = (list.length < LEAST_DAYS ? nearest(known, month, LEAST_DAYS) : list)
      .map((d) => days.clearness[d]!)
      .sort((a, b) => a - b);
    return SHARES.map((share) => rounded(quantile(clearness, share), 3));
  });
}

/** The list of the month nearest in the year that has so many days. */
function nearest(months: readonly number[][], month: number, least: number): number[] {
  for (let away = 1; away <= 6; away++) {
    for (const other of [month + away, month - away]) {
      const list = months[(other + 12) % 12]!;
      if (list.length >= least) return list;
    }
  }
  return [];
}

function rounded(value: number, digits: number): number {
  return Number(value.toFixed(digits));
}
