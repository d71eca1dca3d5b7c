import { type AirDays, usualSwing_K } from '../../sim/climate/airTemperature.ts';

/**
 * The air of the average year at the invented place. Assumptions, no source: January averages about 1 and July about 17
 * degrees.
 */
const MEAN_DEG_C = 9.1;
const HALF_SWING_K = 8.2;
/** Day of the year (0 = 1 January) on which the average day is coldest. */
const COLDEST_DAY = 24;

/** The average year at the invented place for the light of each day; dayOfYear, of each of them, 0 = 1 January. */
export function inventedAir(irradiation_Wh_m2: Float64Array, dayOfYear: ArrayLike<number>): AirDays {
  const warmth = irradiation_Wh_m2.map(
    (_, day) => -Math.cos((2 * Math.PI * (dayOfYear[day]! - COLDEST_DAY)) / 365),
  );
  return {
    mean_degC: warmth.map((season) => MEAN_DEG_C + HALF_SWING_K * season),
    warmth,
    swing_K: irradiation_Wh_m2.map(usualSwing_K),
  };
}
