import { apparentAltitude } from './apparentAltitude.ts';

/**
 * Altitude of the sun without refraction, in degrees, from the refracted one: the inverse of `apparentAltitude`.
 * For instants defined by a negative altitude (dusk is 6 degrees below the horizon, geometric).
 *
 * in: apparent_deg, refracted altitude, -90 to 90.5
 * out: geometric altitude, degrees
 * valid: inverts to 1e-9 degrees
 * source: Meeus1998, equation 16.4, inverted by iteration
 * @example geometricAltitude(-5.51604); // => -6.00000
 */
export function geometricAltitude(apparent_deg: number): number {
  if (apparent_deg <= REFRACTION_AT_HORIZON_DEG) return apparent_deg - REFRACTION_AT_HORIZON_DEG;
  let geometric_deg = apparent_deg;
  for (let i = 0; i < 12; i++) {
    const off_deg = apparentAltitude(geometric_deg) - apparent_deg;
    geometric_deg -= off_deg;
    if (Math.abs(off_deg) < 1e-10) break;
  }
  return geometric_deg;
}

const REFRACTION_AT_HORIZON_DEG = apparentAltitude(0);
