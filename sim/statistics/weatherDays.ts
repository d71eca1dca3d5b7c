import { compensatedSum } from '../common/numeric.ts';
import type { SpotLight } from '../spot/spotLight.ts';
import { WEATHER_MARKS } from '../weather/WeatherRecord.ts';
import type { CivilDay } from './civilHours.ts';

/** The weather of a civil date. */
export interface WeatherDay {
  night: string;
  /** Sum over the date; NaN where it does not apply. */
  ghi_Wh_m2: number;
  coldest_degC: number;
  warmest_degC: number;
  /** Hours that were filled or stand in. */
  filled_h: number;
}

const FILLED = WEATHER_MARKS.indexOf('filled');

/**
 * The weather day by day.
 * in: light, which carries the sky's columns; days, the hours of each civil date
 * out: a row a day; global light in Wh/m2, air in degC
 */
export function weatherDays(
  light: Pick<SpotLight, 'ghi_W_m2' | 'air_degC' | 'mark'>,
  days: readonly CivilDay[],
): WeatherDay[] {
  return days.map(({ date, from, to }) => {
    const air = light.air_degC.subarray(from, to);
    return {
      night: date,
      ghi_Wh_m2: compensatedSum(light.ghi_W_m2.subarray(from, to)),
      coldest_degC: Math.min(...air),
      warmest_degC: Math.max(...air),
      filled_h: light.mark.subarray(from, to).filter((mark) => mark >= FILLED).length,
    };
  });
}
