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
 * in: section, as the schema gives it, library part merged in and readings settled
 */
export function jarParams(section: JarSection): JarParams {
  return {
    rise_K_per_W_m2: section.rise_K_full_sun / 1000,
    timeConstant_s: section.time_constant_min * 60,
    fixed_degC: section.fixed_degC ?? Number.NaN,
  };
}
