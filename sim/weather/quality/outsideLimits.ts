import { highestPossible } from '../highestPossible.ts';
import { LOWEST_IRRADIANCE_W_M2 } from '../limits.ts';
import type { IrradianceColumn } from './HourlyColumns.ts';
import { rarelyExceeded } from './rarelyExceeded.ts';
import type { SunLight } from './SunLight.ts';

/** Hours outside published limits, one byte an hour. */
export interface OutsideLimits {
  impossible: Uint8Array;
  /** Possible, but outside the extremely rare limits. */
  extremelyRare: Uint8Array;
}

/**
 * Hours in which an irradiance lies outside the physically possible or the extremely rare limits.
 *
 * in: column; values, W/m2, NaN missing; light, over the same hours
 * out: one byte an hour
 * valid: means of an hour with the sun at its middle, or at the middle of its sun-up part
 * source: LongDutton2002
 * departs: readings below zero are bounded by the largest offset of good sensors, not by -4 W/m2
 */
export function outsideLimits(
  column: IrradianceColumn,
  values: Float64Array,
  light: SunLight,
): OutsideLimits {
  const quantity = QUANTITY[column];
  const { sun } = light;
  const impossible = new Uint8Array(values.length);
  const extremelyRare = new Uint8Array(values.length);
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    const normal_W_m2 = sun.extraterrestrial_W_m2[i]!;
    // In sunrise hours the sun stands higher in its sun-up part than at mid-hour.
    const altitude_deg = Math.max(sun.altitude_deg[i]!, sun.upAltitude_deg[i]!);
    if (value < LOWEST_IRRADIANCE_W_M2 || value > highestPossible(quantity, normal_W_m2, altitude_deg)) {
      impossible[i] = 1;
    } else if (value > rarelyExceeded(quantity, normal_W_m2, altitude_deg)) extremelyRare[i] = 1;
  }
  return { impossible, extremelyRare };
}

const QUANTITY = { ghi_W_m2: 'ghi', dni_W_m2: 'dni', dhi_W_m2: 'dhi' } as const;
