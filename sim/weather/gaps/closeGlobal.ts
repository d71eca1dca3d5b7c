import type { HourlyColumns } from '../quality/HourlyColumns.ts';
import type { SunLight } from '../quality/SunLight.ts';

/**
 * Hours in which global irradiance is missing while direct and diffuse are there, closed from these two, in W/m2.
 *
 * in: columns, NaN missing, ghi_W_m2 is written to; light, over the same hours
 * out: 1 for each hour closed
 * source: ISO9488
 */
export function closeGlobal(columns: HourlyColumns, light: SunLight): Uint8Array {
  const { ghi_W_m2, dni_W_m2, dhi_W_m2 } = columns;
  const closed = new Uint8Array(columns.count);
  if (dni_W_m2 === undefined || dhi_W_m2 === undefined) return closed;
  const { upCosZenith, upShare } = light.sun;
  for (let i = 0; i < columns.count; i++) {
    if (!Number.isNaN(ghi_W_m2[i]!)) continue;
    const sum = dhi_W_m2[i]! + dni_W_m2[i]! * upCosZenith[i]! * upShare[i]!;
    if (Number.isNaN(sum)) continue;
    ghi_W_m2[i] = Math.max(sum, 0);
    closed[i] = 1;
  }
  return closed;
}
