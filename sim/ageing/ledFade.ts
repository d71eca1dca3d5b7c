import { power } from '../common/elementary/power.ts';
import type { LedSection } from '../lamp/led/schema.ts';
import type { YearColumns } from '../year/YearColumns.ts';

/** How long an LED keeps most of its light. */
export interface LedRating {
  /** Lit hours after which `left` of the light is left. */
  hours: number;
  left: number;
  /** Current of one LED and temperature at which that holds. */
  at_A: number;
  at_degC: number;
}

/** Of an LED whose rating is not stated: a small white one of 20 mA. */
const USUAL = { hours: 20_000, light_left: 0.7, at_mA: 20, at_degC: 25 } as const;
/** The fade is so many times quicker for each 20 K more. */
const PER_20_K = 1.5;

/**
 * The rating of one LED: as stated, or the usual one.
 *
 * in: section, the LED's
 * source: common practice, no source (a small white LED at 20 mA to 70 percent in 20 000 h, from memory; good ones 50 000)
 */
export function ledRating({ life }: LedSection): LedRating {
  const { hours, light_left, at_mA, at_degC } = { ...USUAL, ...life };
  return { hours, left: light_left, at_A: at_mA / 1000, at_degC };
}

/**
 * Share of its rated life that each LED of a lamp spends in a year: after 1 it gives `left` of its light, before and
 * beyond even factors.
 *
 * in: columns, the year's hours; rating; strings, LEDs in parallel
 * out: in proportion to the current, and by a factor of 1.5 per 20 K
 * source: IesTM2011 (an even share of the light lost in each hour); the current and the temperature common practice, no source
 */
export function ledWear(
  { led_C, jar_degC }: Pick<YearColumns, 'led_C' | 'jar_degC'>,
  rating: LedRating,
  strings: number,
): number {
  // In proportion to the current: charge is what counts.
  const rated_C = rating.at_A * rating.hours * 3600 * strings;
  return led_C.reduce(
    (wear, charge_C, hour) =>
      charge_C === 0
        ? wear
        : wear + (charge_C / rated_C) * power(PER_20_K, (jar_degC[hour]! - rating.at_degC) / 20),
    0,
  );
}
