import { exp, expm1 } from '../../common/elementary/exp.ts';
import type { JarParams } from './params.ts';

/**
 * Mean temperature inside the jar for every hour, degrees Celsius, set into `target`.
 *
 * Exact solution of tau dT/dt = outside + rise * light - T, with outside and light constant within an hour. The
 * last ten days are gone through first, so that the first hour starts from the end (a year repeated).
 *
 * in: target, air_degC, light_W_m2, columns of equal length; jar
 * out: nothing; target is filled. Allocates nothing.
 * valid: one temperature for air, cell, capacitor and diode; light on the cell stands for light on the jar
 */
export function jarTemperatureInto(
  target: Float64Array,
  air_degC: Float64Array,
  light_W_m2: Float64Array,
  jar: JarParams,
): void {
  const count = target.length;
  if (!Number.isNaN(jar.fixed_degC)) {
    target.fill(jar.fixed_degC);
    return;
  }
  const hours = 3600 / jar.timeConstant_s;
  const left = exp(-hours);
  const meanLeft = -expm1(-hours) / hours;
  let inside = air_degC[0]!;
  const warmUp = Math.min(count, 240);
  for (let i = count - warmUp; i < count; i++) {
    const steady = air_degC[i]! + jar.rise_K_per_W_m2 * light_W_m2[i]!;
    inside = steady + (inside - steady) * left;
  }
  for (let i = 0; i < count; i++) {
    const steady = air_degC[i]! + jar.rise_K_per_W_m2 * light_W_m2[i]!;
    target[i] = steady + (inside - steady) * meanLeft;
    inside = steady + (inside - steady) * left;
  }
}
