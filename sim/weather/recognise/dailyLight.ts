import { DAY_MS, dayOfYear } from '../../common/time.ts';
import { extraterrestrialNormal } from '../../sun/extraterrestrialNormal.ts';
import { sunOfDay } from '../clock/sunOfDay.ts';

/** The highest value of each day beside what is outside the air at noon. */
export interface DailyLight {
  /** Start of each day, wall clock. */
  day_ms: number[];
  /** Highest value of the day, in whatever unit. */
  most: number[];
  /** Extraterrestrial irradiance on the horizontal at solar noon, W/m2. */
  noon_W_m2: number[];
}

/**
 * For each whole day of a sample the highest value and the extraterrestrial irradiance at noon (W/m2). Without a
 * latitude, that of the latitude where the sun stands highest.
 *
 * in: values, wall_ms of each; latitude_deg, undefined where it is not known
 * out: days with at least 6 values, their noon above 20 W/m2
 */
export function dailyLight(
  values: Float64Array,
  wall_ms: Float64Array,
  latitude_deg: number | undefined,
): DailyLight {
  const tops = new Map<number, { most: number; count: number }>();
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    if (Number.isNaN(value) || Number.isNaN(wall_ms[i]!)) continue;
    const day = Math.floor(wall_ms[i]! / DAY_MS);
    const top = tops.get(day);
    if (top === undefined) tops.set(day, { most: value, count: 1 });
    else {
      top.count++;
      if (value > top.most) top.most = value;
    }
  }
  const light: DailyLight = { day_ms: [], most: [], noon_W_m2: [] };
  for (const [day, { most, count }] of tops) {
    if (count < 6) continue;
    const ms = day * DAY_MS;
    const { declination_deg } = sunOfDay(ms + DAY_MS / 2);
    const zenith_deg = latitude_deg === undefined ? 20 : Math.abs(latitude_deg - declination_deg);
    const noon = extraterrestrialNormal(dayOfYear(ms)) * Math.cos((Math.min(90, zenith_deg) * Math.PI) / 180);
    if (noon < 20) continue;
    light.day_ms.push(ms);
    light.most.push(most);
    light.noon_W_m2.push(noon);
  }
  return light;
}
