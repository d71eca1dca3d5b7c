import { jarFromReadings } from './readings.ts';
import type { JarSection } from './schema.ts';

/** The jar's heat, SI units; temperatures in degrees Celsius. */
export interface JarParams {
  /** Rise of the air inside over the air outside, for each W/m2 on the cell. */
  rise_K_per_W_m2: number;
  timeConstant_s: number;
  /** Temperature everything is held at; NaN where it moves. */
  fixed_degC: number;
}

/**
 * Parameters of the jar.
 * in: section, as the schema gives it, library part already merged in
 */
export function jarParams(section: JarSection): JarParams {
  const rise_K = section.readings
    ? jarFromReadings(section, section.readings).keys.rise_K_full_sun
    : section.rise_K_full_sun;
  return {
    rise_K_per_W_m2: rise_K / 1000,
    timeConstant_s: section.time_constant_min * 60,
    fixed_degC: section.fixed_degC ?? Number.NaN,
  };
}
