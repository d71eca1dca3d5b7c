import { HOUR_MS } from '../../common/time.ts';
import type { UnitName } from '../../tables/units.ts';
import { toCanonical } from '../../tables/units.ts';
import { hasCodeShape } from '../read/rowValues.ts';
import { isLight, type QuantityName } from './DetectedFormat.ts';

/**
 * Numbers that say 'missing' although they could be values: written as codes are, standing at hours at which the
 * quantity is always something else (999 W/m2 in the night).
 *
 * in: values of a sample as they stand, times; quantity, unit
 * out: such numbers
 */
export function codesWithin(
  values: Float64Array,
  wall_ms: Float64Array,
  quantity: QuantityName,
  unit: UnitName,
): number[] {
  if (!isLight(quantity)) return [];
  const suspects = new Map<number, number>();
  const hours = Array.from({ length: 24 }, (): number[] => []);
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    const hour = hourOf(wall_ms[i]!);
    if (Number.isNaN(value) || Number.isNaN(hour)) continue;
    if (hasCodeShape(value)) suspects.set(value, 0);
    else hours[hour]!.push(value);
  }
  const usual = hours.map((list) => list.sort((a, b) => a - b)[Math.floor(list.length * 0.9)] ?? 0);
  for (let i = 0; i < values.length; i++) {
    const count = suspects.get(values[i]!);
    const hour = hourOf(wall_ms[i]!);
    if (count === undefined || Number.isNaN(hour)) continue;
    const bright =
      toCanonical(Math.abs(values[i]!), unit, 3600) >
      50 + 20 * Math.abs(toCanonical(usual[hour]!, unit, 3600));
    if (bright) suspects.set(values[i]!, count + 1);
  }
  return [...suspects].filter(([, count]) => count >= 2).map(([value]) => value);
}

function hourOf(ms: number): number {
  return ((Math.floor(ms / HOUR_MS) % 24) + 24) % 24;
}
