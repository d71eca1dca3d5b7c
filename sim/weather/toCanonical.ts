import type { Unit } from './units.ts';
import { UNITS, type UnitName } from './units.ts';

/**
 * A value in the canonical unit of its quantity (W/m2 as mean over the step, degC, m, m/s, a share).
 *
 * in: value, in `unit`; unit, a name of the units table; step_s, seconds the value covers, more than 0
 * out: the value in UNITS[unit].canonical
 * NaN when: value is NaN
 * valid: exact factors; one rounding or two
 * source: SP811
 * @example toCanonical(36, 'J/cm2', 3600); // => 100
 */
export function toCanonical(value: number, unit: UnitName, step_s: number): number {
  const { subtract, multiply, divide, over }: Unit = UNITS[unit];
  const scaled = ((value - subtract) * multiply) / divide;
  if (over === 'sum') return scaled / step_s;
  return over === 'rate' ? (scaled * step_s) / 3600 : scaled;
}
