import { acos } from '../common/elementary/atan2.ts';
import { cos, sin, tan } from '../common/elementary/sin.ts';

const DEGREE = Math.PI / 180;

/**
 * Ratio of the hour's to the day's clearness index, on the average of many days (no unit): brighter towards noon.
 *
 * in: hourAngle_deg, -180 to 180, 0 at solar noon; sunsetAngle_deg, hour angle of sunset, 0 to 180
 * out: ratio, about 0.6 to 1.2
 * valid: monthly means; a single day strays from it
 * source: CollaresPereiraRabl1979
 */
export function clearnessShape(hourAngle_deg: number, sunsetAngle_deg: number): number {
  const leaning = sin((sunsetAngle_deg - 60) * DEGREE);
  return 0.409 + 0.5016 * leaning + (0.6609 - 0.4767 * leaning) * cos(hourAngle_deg * DEGREE);
}

/**
 * Share of the day's irradiation that falls in the hour around an hour angle, on the average of many days (no unit).
 *
 * in: hourAngle_deg, middle of the hour; sunsetAngle_deg, hour angle of sunset, above 0 and below 180
 * out: share, 0 with the sun down
 * valid: the shares of a day add up to 1 within 0.5 percent; renormalise where that matters
 * source: CollaresPereiraRabl1979
 */
export function hourShare(hourAngle_deg: number, sunsetAngle_deg: number): number {
  if (Math.abs(hourAngle_deg) >= sunsetAngle_deg) return 0;
  const sunset_rad = sunsetAngle_deg * DEGREE;
  const height = cos(hourAngle_deg * DEGREE) - cos(sunset_rad);
  const dayOfSun = sin(sunset_rad) - sunset_rad * cos(sunset_rad);
  return ((Math.PI / 24) * clearnessShape(hourAngle_deg, sunsetAngle_deg) * height) / dayOfSun;
}

/**
 * Hour angle of sunset, degrees.
 *
 * in: declination_deg; latitude_deg
 * out: 0 in polar night, 180 under the midnight sun
 * valid: the middle of the sun, no refraction
 */
export function sunsetAngle(declination_deg: number, latitude_deg: number): number {
  const cosine = -tan(latitude_deg * DEGREE) * tan(declination_deg * DEGREE);
  return acos(Math.min(Math.max(cosine, -1), 1)) / DEGREE;
}
