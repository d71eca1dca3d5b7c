import type { LampParams } from '../lamp/params.ts';
import { LampStepper } from '../year/LampStepper.ts';

const STEP_S = 600;

/**
 * Voltage of a capacitor after some time at rest, volts: cell dark, LED off, leakage, delayed charge and standby drawing.
 *
 * in: lamp; course: from_V, held for held_h before (delayed charge empty at first); hours at rest; temperature_degC
 * out: volts
 * throws: Error where a step cannot be solved (a defect)
 */
export function restingVoltage(
  lamp: LampParams,
  course: { from_V: number; held_h: number; hours: number; temperature_degC: number },
): number {
  const { from_V, held_h, hours, temperature_degC } = course;
  const stepper = new LampStepper(lamp);
  stepper.restAt(from_V);
  const filled = ({ resistance_ohm, capacitance_F }: { resistance_ohm: number; capacitance_F: number }) =>
    capacitance_F === 0 ? from_V : from_V * -Math.expm1((-held_h * 3600) / (resistance_ohm * capacitance_F));
  stepper.delayed1_V = filled(lamp.capacitor.delayed[0]);
  stepper.delayed2_V = filled(lamp.capacitor.delayed[1]);
  stepper.setConditions(0, temperature_degC);
  for (let left_s = hours * 3600; left_s > 0; left_s -= STEP_S) {
    if (!stepper.tryStep(Math.min(STEP_S, left_s))) throw new Error(`no step found at ${stepper.main_V} V`);
    stepper.accept();
  }
  return stepper.main_V;
}
