/**
 * Altitude of the sun as seen through the air, in degrees, from its geometric altitude.
 * The same refraction as `solarPosition` adds: below the horizon that of the horizon itself.
 *
 * in: geometric_deg, -90 to 90
 * out: refracted altitude, degrees
 * valid: within 0.02 degrees above 3 degrees; the horizon's own refraction varies with weather by a tenth of a degree
 * source: Meeus1998, equation 16.4
 * @example apparentAltitude(0); // => 0.48396
 */
export function apparentAltitude(geometric_deg: number): number {
  const above_deg = Math.max(geometric_deg, 0);
  return geometric_deg + REFRACTION_DEG / Math.tan((above_deg + 10.26 / (above_deg + 5.1)) * RADIANS);
}

const RADIANS = Math.PI / 180;
/** 1.02 arc minutes, to the digits with which the package suncalc holds it, so that the two invert exactly. */
const REFRACTION_DEG = 0.0002967 / RADIANS;
