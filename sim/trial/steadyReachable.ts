import { bisect } from '../common/numeric.ts';
import type { LampParams } from '../lamp/params.ts';
import { LampStepper } from '../year/LampStepper.ts';

/**
 * The voltage, volts, at which the capacitor of a lamp settles in steady light with its LED off.
 *
 * in: lamp; light_W_m2 on the cell, above 0; temperature_degC of everything
 * out: volts; 0 where the light lifts nothing
 */
export function steadyReachable(lamp: LampParams, light_W_m2: number, temperature_degC: number): number {
  const stepper = new LampStepper(lamp);
  stepper.setConditions(light_W_m2, temperature_degC);
  const rate = (capacitor_V: number) => {
    stepper.restAt(capacitor_V);
    return stepper.settle();
  };
  const { openCircuit_V } = stepper.path;
  // Nothing draws: the capacitor follows the cell all the way.
  if (rate(openCircuit_V) >= 0) return openCircuit_V;
  return bisect(rate, 0, openCircuit_V) ?? 0;
}
