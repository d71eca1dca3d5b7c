/** Numbers of JSON files are rounded to so many significant digits, so that the last bits of a sum do not show. */
const SIGNIFICANT_DIGITS = 9;

/**
 * A number as a JSON file holds it; null says 'does not apply'.
 *
 * in: value; digits, significant ones
 * @example rounded(1 / 3, 4); // => 0.3333
 */
export function rounded(value: number, digits = SIGNIFICANT_DIGITS): number | null {
  return Number.isFinite(value) ? Number(value.toPrecision(digits)) + 0 : null;
}
