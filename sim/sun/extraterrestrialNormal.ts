import { CONSTANTS } from '../common/constants.ts';
import { cos, sin } from '../common/elementary/sin.ts';

/**
 * Irradiance outside the air on a plane that faces the sun, in W/m2.
 *
 * in: dayOfYear, 1 to 367, may be fractional; solarConstant_W_m2, 1361.1 by default (others to meet older tables)
 * out: W/m2
 * valid: the series within 0.01 percent of the distance itself
 * source: Spencer1971; Gueymard2018 for the constant
 * @example extraterrestrialNormal(1, 1); // => 1.03505
 */
export function extraterrestrialNormal(
  dayOfYear: number,
  solarConstant_W_m2: number = CONSTANTS.solarConstant.value,
): number {
  // g: day angle, radians
  const g = (2 * Math.PI * (dayOfYear - 1)) / 365;
  return (
    solarConstant_W_m2 *
    (1.00011 + 0.034221 * cos(g) + 0.00128 * sin(g) + 0.000719 * cos(2 * g) + 0.000077 * sin(2 * g))
  );
}
