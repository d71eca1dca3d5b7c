import { randomStream } from '../../../sim/common/random.ts';
import { ineichenClearSky } from '../../../sim/sun/ineichenClearSky.ts';
import { sunColumns } from '../../../sim/sun/sunColumns.ts';
import type { HourlyColumns } from '../../../sim/weather/WeatherRecord.ts';

export interface MadeSky {
  seed: number;
  latitude_deg: number;
  longitude_deg: number;
  start_ms: number;
  hours: number;
  /** Values are written in steps of this. */
  step_W_m2: number;
  /** Mean of the daily transmittance of the cloud, 0 to 1; the day's scatters by half of what is left to both ends. */
  mean: number;
  /** What the sensor reads in the dark. */
  offset_W_m2?: number;
}

/** An invented record: a cloudless sky times cloud that changes from day to day and hour to hour. */
export function madeRecord(sky: MadeSky): HourlyColumns & { air_degC: Float64Array } {
  const site = { latitude_deg: sky.latitude_deg, longitude_deg: sky.longitude_deg };
  const sun = sunColumns(sky.start_ms, sky.hours, site);
  const random = randomStream(sky.seed, 'made record');
  const ghi_W_m2 = new Float64Array(sky.hours);
  const air_degC = new Float64Array(sky.hours);
  let day = random.normal();
  let hour = random.normal();
  for (let i = 0; i < sky.hours; i++) {
    if (i % 24 === 0) day = 0.3 * day + 0.95 * random.normal();
    hour = 0.6 * hour + 0.8 * random.normal();
    const middle = Math.log(sky.mean / (1 - sky.mean));
    const through = 0.06 + 0.94 / (1 + Math.exp(-(middle + 1.3 * day + 0.6 * hour)));
    const altitude_deg = (Math.asin(sun.upCosZenith[i]!) * 180) / Math.PI;
    const clear = ineichenClearSky(altitude_deg, sun.extraterrestrial_W_m2[i]!, 0).ghi_W_m2;
    const noise = sky.offset_W_m2 === undefined ? 0 : 0.5 * random.normal();
    const value = clear * sun.upShare[i]! * through + (sky.offset_W_m2 ?? 0) + noise;
    ghi_W_m2[i] = Math.round(value / sky.step_W_m2) * sky.step_W_m2 + 0;
    air_degC[i] = Math.round((9 + 3 * day + hour + 4 * Math.sin(i / 24)) * 10) / 10;
  }
  return { start_ms: sky.start_ms, count: sky.hours, ghi_W_m2, air_degC };
}

export const YEAR_2021_MS = Date.UTC(2021, 0, 1);
export const GARDEN = { latitude_deg: 54, longitude_deg: 10, elevation_m: 20 };

/** A year of the garden's invented sky, in steps of 0.1 W/m2. */
export function gardenYear(seed: number, hours = 8760): ReturnType<typeof madeRecord> {
  return madeRecord({ ...GARDEN, seed, start_ms: YEAR_2021_MS, hours, step_W_m2: 0.1, mean: 0.45 });
}

/** Index of an hour of 2021, UTC. */
export function hourOf2021(month: number, day: number, hour: number): number {
  return (Date.UTC(2021, month - 1, day, hour) - YEAR_2021_MS) / 3_600_000;
}
