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
 * out: days with at least 6 values, their noon above 20 W/m2; of a row a day the means of the day in place of noons
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
  const byDay = [...tops.values()].every(({ count }) => count === 1);
  const light: DailyLight = { day_ms: [], most: [], noon_W_m2: [] };
  for (const [day, { most, count }] of tops) {
    if (count < 6 && !byDay) continue;
    const ms = day * DAY_MS;
    const { declination_deg } = sunOfDay(ms + DAY_MS / 2);
    const normal_W_m2 = extraterrestrialNormal(dayOfYear(ms));
    const noon =
      normal_W_m2 *
      (byDay ? meanSine(latitude_deg ?? 0, declination_deg) : noonSine(latitude_deg, declination_deg));
    if (noon < 20) continue;
    light.day_ms.push(ms);
    light.most.push(most);
    light.noon_W_m2.push(noon);
  }
  return light;
}

function noonSine(latitude_deg: number | undefined, declination_deg: number): number {
  const zenith_deg = latitude_deg === undefined ? 20 : Math.abs(latitude_deg - declination_deg);
  return Math.cos((Math.min(90, zenith_deg) * Math.PI) / 180);
}

/** Mean over 24 hours of the sine of the sun's height, where it is up. */
function meanSine(latitude_deg: number, declination_deg: number): number {
  const [phi, delta] = [latitude_deg, declination_deg].map((angle) => (angle * Math.PI) / 180) as [
    number,
    number,
  ];
  const sunset = Math.acos(Math.max(-1, Math.min(1, -Math.tan(phi) * Math.tan(delta))));
  return (
    (Math.cos(phi) * Math.cos(delta) * Math.sin(sunset) + sunset * Math.sin(phi) * Math.sin(delta)) / Math.PI
  );
}
