import { mean } from 'simple-statistics';
import { piecewiseLinear } from '../common/numeric.ts';
import { usualSwing_K } from './airTemperature.ts';
import {
  bendt,
  type ClearnessDistribution,
  highestClearness,
  hollandsHuget,
} from './ClearnessDistribution.ts';
import { normalShare, YEAR_DAYS } from './LearnedClimate.ts';
import { type MonthsOfSun, monthsOfSun } from './MonthsOfSun.ts';
import type { WinterFrame } from './madeWinters.ts';
import type { Persistence } from './persistence.ts';
import type { ClimateSection, DistributionName } from './schema.ts';

/** How the days of a climate are spread: by a published distribution, or as learned from a record. */
export type SpreadName = DistributionName | 'learned';

/** What winters are made from where only months are known. */
export interface MeansClimate {
  spread: SpreadName;
  persistence: Persistence;
  months: MonthsOfSun;
  /** Of each month the clearness at normal numbers from -4 to 4, `STEPS` a unit. */
  clearness: readonly Float64Array[];
  /** Of each day of the frame: the air of the average year, and its season from -1 to 1. */
  air_degC: Float64Array;
  warmth: Float64Array;
  /** Of each month the daily range of the air over the usual one by the day's light. */
  rangeOfUsual: readonly number[];
  /** Share of the days with snow lying, month by month; left out where nobody says. */
  snowShare?: readonly number[];
  /** Words for `WeatherRecord.origin`. */
  from: string;
}

/**
 * What each way of spreading days is called, and how far failed nights of winters made so were off those of eleven and
 * twelve real winters at 57.7 N (own evaluation): the first a tenth to a quarter too few, the second a fifth to a half too
 * many, learned months within 6 percent.
 */
export const SPREADS: Record<SpreadName, { words: string; bias: string }> = {
  bendt: {
    words: 'the distribution of Bendt, Collares-Pereira and Rabl 1981',
    bias: 'may be a quarter too kind',
  },
  'hollands-huget': {
    words: 'the distribution of Hollands and Huget 1983',
    bias: 'may be a half too harsh',
  },
  learned: {
    words: 'the days of a record, month by month',
    bias: 'may be a tenth off',
  },
};

/** Normal numbers at which clearness is tabulated: from -MOST to MOST, so many a unit. */
const MOST = 4;
const STEPS = 16;

/** Clearness taken for months in which the sun hardly rises; their light is nothing. */
const DARK_CLEARNESS = 0.3;

/**
 * The climate of a place from what is known of its months, ready to make winters.
 *
 * in: section, sound (`checkClimate`); frame; spread, one of those the section allows (`spreadsOf`)
 * out: the climate
 * source: Bendt1981, HollandsHuget1983
 */
export function meansClimate(
  section: ClimateSection,
  frame: WinterFrame,
  spread: SpreadName = spreadsOf(section)[0]!,
): MeansClimate {
  const months = monthsOfSun(frame);
  const means = clearnessOf(section, months);
  const atShare = means.map((mean, month) => {
    const clearest = months.clearest[month]!;
    if (months.isDark[month]) return () => Math.min(DARK_CLEARNESS, clearest);
    if (spread !== 'learned') return distributionOf(spread, mean!, clearest).clearnessAt;
    const { days, months: rows } = section.clearness_shares!;
    const row = rows[month]!;
    return (share: number) => Math.min(clearest, piecewiseLinear(days, row, share));
  });
  const clearness = atShare.map((at) =>
    Float64Array.from({ length: 2 * MOST * STEPS + 1 }, (_, i) => at(normalShare(i / STEPS - MOST))),
  );
  const air_degC = throughMonths(section.air_degC ?? [], months.monthOfDay, frame.season);
  return {
    spread,
    persistence: section.persistence,
    months,
    clearness,
    air_degC,
    warmth: warmthOf(air_degC),
    rangeOfUsual: clearness.map((table, month) => {
      const range = section.air_range_K?.[month];
      return range === undefined ? 1 : range / usualRange_K(table, months.outside_kWh_m2_day[month]!);
    }),
    ...(section.snow_days === undefined
      ? {}
      : { snowShare: section.snow_days.map((snow, month) => Math.min(1, snow / months.days[month]!)) }),
    from: section.learned_from ?? 'twelve monthly means',
  };
}

/** The ways of spreading days that a climate leaves open, the kinder first. */
export function spreadsOf(section: ClimateSection): SpreadName[] {
  if (section.clearness_shares !== undefined) return ['learned'];
  return section.distribution === undefined ? ['bendt', 'hollands-huget'] : [section.distribution];
}

/** Mean clearness of each month; undefined where there is no sun, or the days are given by shares. */
export function clearnessOf(section: ClimateSection, months: MonthsOfSun): (number | undefined)[] {
  return months.isDark.map((dark, month) => {
    if (dark) return undefined;
    const light = section.irradiation_kWh_m2_day?.[month];
    const stated = section.clearness?.[month];
    if (typeof light === 'number') return light / months.outside_kWh_m2_day[month]!;
    return stated ?? undefined;
  });
}

/** Clearness that a day of a month has, by the normal number behind it. */
export function clearnessAt(table: Float64Array, normal: number): number {
  const place = Math.min(Math.max((normal + MOST) * STEPS, 0), 2 * MOST * STEPS - 1e-9);
  const i = Math.floor(place);
  return table[i]! + (place - i) * (table[i + 1]! - table[i]!);
}

function distributionOf(spread: DistributionName, mean: number, clearest: number): ClearnessDistribution {
  return spread === 'bendt'
    ? bendt(mean, Math.min(highestClearness(mean), clearest))
    : hollandsHuget(mean, clearest);
}

/** Mean over the days of a month of the usual daily range of the air, K. */
function usualRange_K(table: Float64Array, outside_kWh_m2_day: number): number {
  return table.reduce((sum, clearness, i) => {
    const share = normalShare((i + 0.5) / STEPS - MOST) - normalShare((i - 0.5) / STEPS - MOST);
    return sum + share * usualSwing_K(clearness * outside_kWh_m2_day * 1000);
  }, 0);
}

/** Least half swing of the year that makes seasons, K. */
const LEAST_HALF_SWING_K = 3;

function warmthOf(air_degC: Float64Array): Float64Array {
  const middle = mean(Array.from(air_degC));
  const half = Math.max(LEAST_HALF_SWING_K, ...air_degC.map((air) => Math.abs(air - middle)));
  return air_degC.map((air) => (air - middle) / half);
}

const MIDDLES = [15.5, 45, 74.5, 105, 135.5, 166, 196.5, 227.5, 258, 288.5, 319, 349.5];
/** Rounds in which the corners of the year's course are moved until its months have their means. */
const ROUNDS = 60;

/** A course of the year by straight lines between the middles of months whose means are those given. */
function throughMonths(means: readonly number[], monthOfDay: Uint8Array, season: Uint16Array): Float64Array {
  const corners = [...means];
  const course = new Float64Array(season.length);
  for (let round = 0; round < ROUNDS; round++) {
    const at = [MIDDLES.at(-1)! - YEAR_DAYS, ...MIDDLES, MIDDLES[0]! + YEAR_DAYS];
    const values = [corners.at(-1)!, ...corners, corners[0]!];
    const sums = new Array<number>(12).fill(0);
    const days = new Array<number>(12).fill(0);
    season.forEach((day, d) => {
      course[d] = piecewiseLinear(at, values, day + 0.5);
      sums[monthOfDay[d]!]! += course[d]!;
      days[monthOfDay[d]!]!++;
    });
    corners.forEach((corner, month) => {
      corners[month] = corner + means[month]! - sums[month]! / days[month]!;
    });
  }
  return course;
}
