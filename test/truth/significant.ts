/** A number for reading: five significant digits, plain where it can be, without idle zeros. */
export function significant(value: number, digits = 5): string {
  if (value === 0 || !Number.isFinite(value)) return String(value);
  const size = Math.abs(value);
  if (size >= 1e6 || size < 1e-4) return value.toExponential(digits - 1).replace(/\.?0+e/, 'e');
  return String(Number(value.toPrecision(digits)));
}
