import { asin, atan2 } from '../common/elementary/atan2.ts';
import { cos, sin } from '../common/elementary/sin.ts';
import { DAY_MS } from '../common/time.ts';
/** Where the sun stands on a day, as far as a fold by solar time needs it. */
export interface SunOfDay {
  declination_deg: number;
  /** True minus mean solar time, minutes. */
  equationOfTime_min: number;
}

/** 1 January 2000, 12:00 UTC. */
const EPOCH_2000_MS = 946_728_000_000;

/**
 * Declination (degrees) and equation of time (minutes) of the sun at an instant, from its mean elements. For
 * folding long series, where the full position of every row would cost too much.
 *
 * in: instant_ms, UTC milliseconds
 * out: declination -23.5..23.5 degrees, equation of time -15..17 minutes
 * valid: 1950 to 2050 to 0.01 degrees and 0.1 minutes
 * source: AstronomicalAlmanacLowPrecision
 */
export function sunOfDay(instant_ms: number): SunOfDay {
  const rad = Math.PI / 180;
  const days = (instant_ms - EPOCH_2000_MS) / DAY_MS;
  const meanLongitude = 280.46 + 0.9856474 * days;
  const anomaly = (357.528 + 0.9856003 * days) * rad;
  const longitude = (meanLongitude + 1.915 * sin(anomaly) + 0.02 * sin(2 * anomaly)) * rad;
  const obliquity = (23.439 - 0.0000004 * days) * rad;
  const rightAscension = atan2(cos(obliquity) * sin(longitude), cos(longitude)) / rad;
  const turn = (meanLongitude - rightAscension) % 360;
  const difference = turn > 180 ? turn - 360 : turn < -180 ? turn + 360 : turn;
  return {
    declination_deg: asin(sin(obliquity) * sin(longitude)) / rad,
    equationOfTime_min: difference * 4,
  };
}
