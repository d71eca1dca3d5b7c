/**
 * A number with three significant digits, or as many as asked for; with a power of ten where it is very small or large.
 *
 * in: value; digits
 * @example shortNumber(0.012345); // => '0.0123'
 */
export function shortNumber(value: number, digits = 3): string {
  if (value === 0) return '0';
  const size = Math.abs(value);
  if (size < 1e-3 || size >= 1e6) return value.toExponential(digits - 1);
  const decimals = Math.max(0, digits - 1 - Math.floor(Math.log10(size)));
  return value.toFixed(decimals);
}
