import {
  type PartFit,
  STANDARD_ERRORS_90,
  STATED_OVER_STANDARD,
  significant,
  standardShare,
} from '../../common/Estimate.ts';
import { hypot } from '../../common/elementary/hypot.ts';
import { square } from '../../common/numeric.ts';
import type { JarReadings, JarSection } from './schema.ts';

/** A jar found from readings. */
export interface JarFit extends PartFit {
  keys: { rise_K_full_sun: number };
}

/**
 * How much warmer a jar gets in full sun, kelvin, from temperatures inside and outside: the weighted mean of the rise
 * per light, with its 90 percent interval.
 *
 * in: section, the jar; readings
 * valid: steady light, so that the time constant does not matter; a jar colder than the air counts as no rise
 * source: JCGM100 (stated errors with a coverage factor of 2)
 */
export function jarFromReadings(section: JarSection, readings: JarReadings): JarFit {
  const rises = readings.points.map(({ light_W_m2, outside_degC, inside_degC }) => {
    const measured = inside_degC - outside_degC;
    const error_K = hypot(
      readings.temperature_error_K / STATED_OVER_STANDARD,
      section.rise_K_full_sun * (light_W_m2 / 1000) * standardShare(readings.light_error_percent),
    );
    return { light_W_m2, measured, error_K: Math.max(error_K, 1e-6) };
  });
  let weight = 0;
  let sum = 0;
  for (const { light_W_m2, measured, error_K } of rises) {
    const suns = light_W_m2 / 1000;
    weight += square(suns / error_K);
    sum += (suns * measured) / square(error_K);
  }
  const rise_K = Math.max(0, sum / weight);
  const half_K = STANDARD_ERRORS_90 / Math.sqrt(weight);
  return {
    estimates: [
      {
        key: 'rise_K_full_sun',
        what: 'air inside above air outside in full sun',
        unit: 'K',
        value: rise_K,
        low: Math.max(0, rise_K - half_K),
        high: rise_K + half_K,
        datasheet: section.rise_K_full_sun,
      },
    ],
    readings: rises.map(({ light_W_m2, measured, error_K }) => ({
      what: `rise in ${light_W_m2} W/m2`,
      unit: 'K',
      measured,
      fitted: (rise_K * light_W_m2) / 1000,
      error: error_K,
    })),
    notes: [],
    keys: { rise_K_full_sun: significant(rise_K, 4) },
  };
}
