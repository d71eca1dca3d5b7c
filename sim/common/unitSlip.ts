/**
 * The factor of 1000 by which a value seems to be off, a pure number: 1000 where it is a thousand times too large, 0.001 where it is
 * a thousand times too small, undefined where it is neither. For readings whose unit was mixed up.
 *
 * in: value and usual, what it should be near, both above 0
 * @example unitSlip(0.5, 480); // => 0.001
 */
export function unitSlip(value: number, usual: number): 1000 | 0.001 | undefined {
  const ratio = value / usual;
  if (ratio > 150 && ratio < 7000) return 1000;
  if (ratio < 1 / 150 && ratio > 1 / 7000) return 0.001;
  return undefined;
}
