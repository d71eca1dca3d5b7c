import { max, median, quantile, range, rollup } from 'd3-array';
import { cos, sin } from '../../common/elementary/sin.ts';
import { DAY_MS, dayOfYear } from '../../common/time.ts';
import { sunsetAngle } from '../../sun/dayShape.ts';
import { extraterrestrialNormal } from '../../sun/extraterrestrialNormal.ts';
import { sunOfDay } from '../../sun/sunOfDay.ts';
import { toCanonical } from '../../tables/units.ts';
import type { StatedUnit } from './unitFromWords.ts';

/** What the numbers of a column are seen in. */
export interface Seen {
  /** As they stand in the file, codes for 'missing' taken out. */
  values: Float64Array;
  wall_ms: Float64Array;
  step_s: number;
  latitude_deg?: number | undefined;
}

/** Seconds that an energy in a cell is summed over: as stated, else the step of the file, an hour where rows are irregular. */
export function summedOver_s(per_s: number | undefined, step_s: number): number {
  return per_s ?? (step_s > 0 ? step_s : 3600);
}

/** Highest value of a day over the light outside the air at noon, on the clearest days; how many, and their middle noon. */
export function clearest(
  seen: Seen,
  { unit, per_s }: StatedUnit,
): { index: number; days: number; noon_W_m2: number } {
  const light = dailyLight(seen.values, seen.wall_ms, seen.latitude_deg);
  const step_s = summedOver_s(per_s, seen.step_s);
  const one = toCanonical(1, unit, step_s);
  const shares = light.most.map((value, d) => (value * one) / light.noon_W_m2[d]!);
  // Very low noons make wild shares.
  const good = shares.filter((_, d) => light.noon_W_m2[d]! > 100);
  const known = seen.latitude_deg !== undefined;
  const used = known && good.length > 0 ? good : shares;
  // Without a latitude only the brightest days say something.
  const index = quantile(used, known && used.length > 20 ? 0.97 : 1) ?? 0;
  return { index, days: used.length, noon_W_m2: median(light.noon_W_m2) ?? 0 };
}

/** The highest value of each day beside what is outside the air at noon. */
interface DailyLight {
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
  const known = range(values.length).filter((i) => !Number.isNaN(values[i]! + wall_ms[i]!));
  const tops = rollup(
    known,
    (list) => ({ most: max(list, (i) => values[i]!)!, count: list.length }),
    (i) => Math.floor(wall_ms[i]! / DAY_MS),
  );
  const byDay = [...tops.values()].every(({ count }) => count === 1);
  const light: DailyLight = { most: [], noon_W_m2: [] };
  for (const [day, { most, count }] of tops) {
    if (count < 6 && !byDay) continue;
    const noon = byDay
      ? meanOutside(day * DAY_MS, latitude_deg ?? 0)
      : noonOutside(day * DAY_MS, latitude_deg);
    if (noon < 20) continue;
    light.most.push(most);
    light.noon_W_m2.push(noon);
  }
  return light;
}

/**
 * Light outside the air at noon of a day, W/m2 on the horizontal; without a latitude where the sun stands highest.
 *
 * in: day_ms, its midnight, UTC milliseconds; latitude_deg
 */
export function noonOutside(day_ms: number, latitude_deg: number | undefined): number {
  const { declination_deg } = sunOfDay(day_ms + DAY_MS / 2);
  return extraterrestrialNormal(dayOfYear(day_ms)) * noonSine(latitude_deg, declination_deg);
}

function meanOutside(day_ms: number, latitude_deg: number): number {
  const { declination_deg } = sunOfDay(day_ms + DAY_MS / 2);
  return extraterrestrialNormal(dayOfYear(day_ms)) * meanSine(latitude_deg, declination_deg);
}

function noonSine(latitude_deg: number | undefined, declination_deg: number): number {
  const zenith_deg = latitude_deg === undefined ? 20 : Math.abs(latitude_deg - declination_deg);
  return cos((Math.min(90, zenith_deg) * Math.PI) / 180);
}

/** Mean over 24 hours of the sine of the sun's height, where it is up. */
function meanSine(latitude_deg: number, declination_deg: number): number {
  const angles_deg = [latitude_deg, declination_deg, sunsetAngle(declination_deg, latitude_deg)];
  const [phi, delta, sunset] = angles_deg.map((angle) => (angle * Math.PI) / 180) as [number, number, number];
  return (cos(phi) * cos(delta) * sin(sunset) + sunset * sin(phi) * sin(delta)) / Math.PI;
}
