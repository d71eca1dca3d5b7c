import { exp } from '../../common/elementary/exp.ts';
import type { WeatherRecord } from '../../weather/WeatherRecord.ts';

/** What is taken where a spot says nothing of snow: whether it stays on the lid, and what of the light it reflects on the ground. */
export const USUAL_SNOW = { on_lid: true, ground_albedo: 0.6 };

/** Snow by the hour. */
export interface SnowLying {
  /** On a lid, as water. */
  lid_mm: Float64Array;
  /** 1 where the ground is white. */
  ground: Uint8Array;
  /** What it was told from. */
  from: 'snow depth' | 'precipitation and temperature';
}

/**
 * Snow that lies on a lid and on the ground, hour by hour, by one rule. Snow falls where the snow depth rises (100 kg
 * water to the m3 of fresh snow), or without such a column where precipitation falls at 1 degree or colder. On a lid
 * it melts by 4 mm of water a day and degree above freezing; it is gone where the depth says so. The ground is white
 * from 2 cm of snow.
 *
 * in: weather
 * out: undefined where the weather has neither snow depth nor precipitation
 * valid: a rough rule: wind, sliding, brushing off and the warmth of the jar are left out
 * source: Hock2003 for the degree-day factor (3 to 5 mm a day and degree); the rest common practice, no source
 */
export function snowLying(weather: WeatherRecord): SnowLying | undefined {
  const { count, air_degC, snowDepth_m: depth_m, rain_mm: fall_mm } = weather;
  if (depth_m === undefined && fall_mm === undefined) return undefined;
  const lid_mm = new Float64Array(count);
  const ground = new Uint8Array(count);
  let lying_mm = 0;
  for (let i = 0; i < count; i++) {
    const air = air_degC[i]!;
    if (depth_m !== undefined) {
      const rise_m = i === 0 ? depth_m[0]! : depth_m[i]! - depth_m[i - 1]!;
      if (rise_m > 0) lying_mm += rise_m * FRESH_KG_M3;
    } else if (air <= SNOW_BELOW_DEG_C) lying_mm += fall_mm![i]!;
    if (air > 0) lying_mm = Math.max(lying_mm - (MELT_MM_DAY_K * air) / 24, 0);
    if (depth_m !== undefined && !(depth_m[i]! > 0)) lying_mm = 0;
    lid_mm[i] = lying_mm;
    const ground_m = depth_m === undefined ? lying_mm / FRESH_KG_M3 : depth_m[i]!;
    ground[i] = ground_m >= WHITE_M ? 1 : 0;
  }
  return { lid_mm, ground, from: depth_m === undefined ? 'precipitation and temperature' : 'snow depth' };
}

/**
 * Share of the light that snow on a lid lets through, without unit.
 *
 * in: lying_mm, snow as water; a millimetre is a centimetre of fresh snow
 * out: 1 without snow, 0.61 under 1 cm, 0.08 under 5 cm (an assumption, no source)
 */
export function throughSnow(lying_mm: number): number {
  return exp(-lying_mm / 2);
}

const FRESH_KG_M3 = 100;
const SNOW_BELOW_DEG_C = 1;
const MELT_MM_DAY_K = 4;
const WHITE_M = 0.02;
