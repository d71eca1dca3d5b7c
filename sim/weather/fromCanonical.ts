import type { Unit } from './units.ts';
import { UNITS, type UnitName } from './units.ts';

/**
 * A value in the unit of a file from its canonical one: the inverse of toCanonical.
 *
 * in: value, in UNITS[unit].canonical; unit; step_s, seconds the value covers
 * out: the value in `unit`
 * source: SP811
 * @example fromCanonical(100, 'J/cm2', 3600); // => 36
 */
export function fromCanonical(value: number, unit: UnitName, step_s: number): number {
  const { subtract, multiply, divide, over }: Unit = UNITS[unit];
  const steps = over === 'sum' ? step_s : over === 'rate' ? 3600 / step_s : 1;
  return (value * steps * divide) / multiply + subtract;
}
