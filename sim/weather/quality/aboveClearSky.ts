import type { SunLight } from './SunLight.ts';

/** An hour may exceed the cleanest cloudless sky by this share and this much, by clouds at the sun's side; common practice, no source. */
export const CLEAR_SKY_MARGIN = { share: 0.1, W_m2: 30 } as const;

/**
 * Hours in which global irradiance exceeds that of the cleanest cloudless sky by more than the stated margin.
 *
 * in: ghi_W_m2, NaN missing; light, over the same hours
 * out: one byte an hour
 * source: IneichenPerez2002, Linke turbidity 2
 */
export function aboveClearSky(ghi_W_m2: Float64Array, light: SunLight): Uint8Array {
  const above = new Uint8Array(ghi_W_m2.length);
  for (let i = 0; i < above.length; i++) {
    const highest = light.cleanest_W_m2[i]! * (1 + CLEAR_SKY_MARGIN.share) + CLEAR_SKY_MARGIN.W_m2;
    if (light.dark[i] === 0 && ghi_W_m2[i]! > highest) above[i] = 1;
  }
  return above;
}
