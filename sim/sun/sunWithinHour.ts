import { apparentAltitude } from './apparentAltitude.ts';
import type { SolarPosition } from './solarPosition.ts';
import type { SunColumns } from './sunColumns.ts';
import { sunFromHourAngle } from './sunFromHourAngle.ts';

/**
 * Where the sun's centre stands at a moment inside an hour of the columns, in degrees, refracted.
 * Declination and hour angle are taken as linear between the bounds of the hour.
 *
 * in: sun; hour, row of the columns; fraction, moment within the hour, 0 to 1
 * out: refracted altitude and azimuth clockwise from north, degrees
 * valid: within 0.001 degrees of `solarPosition`
 */
export function sunWithinHour(sun: SunColumns, hour: number, fraction: number): SolarPosition {
  const position = sunFromHourAngle(
    declinationWithinHour(sun, hour, fraction),
    hourAngleWithinHour(sun, hour, fraction),
    sun.latitude_deg,
  );
  position.altitude_deg = apparentAltitude(position.altitude_deg);
  return position;
}

function declinationWithinHour(sun: SunColumns, hour: number, fraction: number): number {
  const from = sun.declination_deg[hour]!;
  return from + fraction * (sun.declination_deg[hour + 1]! - from);
}

function hourAngleWithinHour(sun: SunColumns, hour: number, fraction: number): number {
  const from = sun.hourAngle_deg[hour]!;
  const turn = sun.hourAngle_deg[hour + 1]! - from;
  return from + fraction * (turn < 0 ? turn + 360 : turn);
}
