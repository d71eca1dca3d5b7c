import type { LedParams } from './params.ts';

/** What the LEDs do with a power: their current, forward voltage and light. */
export interface LedState {
  current_A: number;
  forward_V: number;
  light_lm: number;
}

/**
 * Current, forward voltage and lumens of the LEDs at an electrical power.
 *
 * in: led; power_W, 0 or more
 * out: amperes, volts, lumens
 */
export function ledAtPower(led: LedParams, power_W: number): LedState {
  const { current_A: rows_A, forward_V: rows_V, efficacy_lm_W: rows_lm_W } = led;
  if (power_W <= 0) return { current_A: 0, forward_V: rows_V[0]!, light_lm: 0 };
  const last = rows_A.length - 1;
  const beyond =
    power_W <= rows_A[0]! * rows_V[0]! ? 0 : power_W >= rows_A[last]! * rows_V[last]! ? last : -1;
  if (beyond >= 0) {
    const forward_V = rows_V[beyond]!;
    return { current_A: power_W / forward_V, forward_V, light_lm: power_W * rows_lm_W[beyond]! };
  }
  let k = 0;
  while (rows_A[k + 1]! * rows_V[k + 1]! < power_W) k++;
  // Between rows the voltage is a straight line V0 + s I, so that power is a quadratic in the current.
  const step_A = rows_A[k + 1]! - rows_A[k]!;
  const slope_ohm = (rows_V[k + 1]! - rows_V[k]!) / step_A;
  const atZero_V = rows_V[k]! - slope_ohm * rows_A[k]!;
  const current_A = (2 * power_W) / (atZero_V + Math.sqrt(atZero_V * atZero_V + 4 * slope_ohm * power_W));
  const over_A = current_A - rows_A[k]!;
  return {
    current_A,
    forward_V: rows_V[k]! + slope_ohm * over_A,
    light_lm: power_W * (rows_lm_W[k]! + ((rows_lm_W[k + 1]! - rows_lm_W[k]!) * over_A) / step_A),
  };
}
