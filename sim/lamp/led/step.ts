import { piecewiseLinear } from '../../common/numeric.ts';
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
  if (power_W <= 0) return { current_A: 0, forward_V: led.forward_V[0]!, light_lm: 0 };
  const { current_A: rows_A, forward_V: rows_V } = led;
  const last = rows_A.length - 1;
  let current_A: number;
  if (power_W <= rows_A[0]! * rows_V[0]!) current_A = power_W / rows_V[0]!;
  else if (power_W >= rows_A[last]! * rows_V[last]!) current_A = power_W / rows_V[last]!;
  else {
    let k = 0;
    while (rows_A[k + 1]! * rows_V[k + 1]! < power_W) k++;
    // Between rows the voltage is a straight line V0 + s I, so that power is a quadratic in the current.
    const slope_ohm = (rows_V[k + 1]! - rows_V[k]!) / (rows_A[k + 1]! - rows_A[k]!);
    const atZero_V = rows_V[k]! - slope_ohm * rows_A[k]!;
    current_A = (2 * power_W) / (atZero_V + Math.sqrt(atZero_V * atZero_V + 4 * slope_ohm * power_W));
  }
  return {
    current_A,
    forward_V: piecewiseLinear(rows_A, rows_V, current_A),
    light_lm: power_W * piecewiseLinear(rows_A, led.efficacy_lm_W, current_A),
  };
}
