import type { SunLight } from './SunLight.ts';

/** Hours in which the three components could be held against each other, and those in which they disagree. */
export interface Closure {
  tested: number;
  open: Uint8Array;
  /** Mean of global over the sum of the others, 1 where all is well; NaN without a tested hour. */
  meanRatio: number;
}

/**
 * Hours in which global irradiance and the sum of diffuse and direct on the flat differ by more than published
 * bounds: 8 percent, 15 with the sun below 15 degrees; or diffuse exceeds global by 5 (10) percent.
 *
 * in: ghi_W_m2, dni_W_m2, dhi_W_m2, NaN missing; light, over the same hours
 * out: one byte an hour
 * valid: hours with the sun up throughout and a sum above 50 W/m2
 * source: LongDutton2002, across-quantities tests
 */
export function notClosing(
  ghi_W_m2: Float64Array,
  dni_W_m2: Float64Array,
  dhi_W_m2: Float64Array,
  light: SunLight,
): Closure {
  const { sun } = light;
  const open = new Uint8Array(ghi_W_m2.length);
  let tested = 0;
  let ratios = 0;
  for (let i = 0; i < open.length; i++) {
    const sum = dhi_W_m2[i]! + dni_W_m2[i]! * sun.upCosZenith[i]!;
    if (sun.upShare[i]! < 1 || !(sum > 50) || Number.isNaN(ghi_W_m2[i]!)) continue;
    const ratio = ghi_W_m2[i]! / sum;
    const high = sun.altitude_deg[i]! > 15;
    tested++;
    ratios += ratio;
    const diffuse = ghi_W_m2[i]! > 50 ? dhi_W_m2[i]! / ghi_W_m2[i]! : 0;
    if (Math.abs(ratio - 1) > (high ? 0.08 : 0.15) || diffuse > (high ? 1.05 : 1.1)) open[i] = 1;
  }
  return { tested, open, meanRatio: ratios / tested };
}
