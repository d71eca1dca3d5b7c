import type { NightCalendar } from '../sun/NightCalendar.ts';
import type { MeasuredShares } from './measured/MeasuredShares.ts';

/**
 * The light on a cell in one spot, hour by hour (constant within the hour), beside the sky it came from.
 * A NaN in ghi, dni or dhi says 'does not apply': the light was measured on the cell itself.
 */
export interface SpotLight {
  start_ms: number;
  count: number;
  /** Light that reaches the cell behind its cover, all parts together. */
  onCell_W_m2: Float64Array;
  /** Part of onCell that comes straight from the sun (circumsolar light included). */
  beam_W_m2: Float64Array;
  /** Part of onCell from the sky. */
  sky_W_m2: Float64Array;
  /** Part of onCell returned by ground and obstacles. */
  returned_W_m2: Float64Array;
  ghi_W_m2: Float64Array;
  dni_W_m2: Float64Array;
  dhi_W_m2: Float64Array;
  air_degC: Float64Array;
  /** Index into WEATHER_MARKS: measured, closed, split, filled, stand-in. */
  mark: Uint8Array;
  /** Altitude of the sun's centre at mid-hour, refracted. */
  sunAltitude_deg: Float64Array;
  /** Same arrays as nights.dusk_ms and nights.dawn_ms. */
  dusk_ms: Float64Array;
  dawn_ms: Float64Array;
  nights: NightCalendar;
  /** Hours whose beam was capped at the clear-sky beam, the excess going to diffuse. */
  cappedHours: number;
  /** Light of a street or porch lamp on the cell, all night; only a lamp that senses the dark cares. */
  nightLight_lux: number;
  /** Hours with snow on the lid and on the ground, where the weather tells of snow. */
  snow?: { from: string; lid_h: number; ground_h: number };
  /** What a log of light at the spot gave, where one was named. */
  measured?: MeasuredShares;
}
