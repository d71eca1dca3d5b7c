import { expect, it } from 'vitest';
import { LampStepper } from '../../sim/year/LampStepper.ts';
import { idealCapacitor, makeLamp, RAW_CELL, RAW_DIODE, RAW_LED } from '../lamp/makeLamp.ts';

const LAMP = makeLamp({
  cell: RAW_CELL,
  diode: RAW_DIODE,
  capacitor: idealCapacitor(500),
  driver: { kind: 'power', power_mW: 1, standby_uA: 0, below_cutoff_uA: 0 },
  led: RAW_LED,
  jar: { fixed_degC: 25 },
  schedule: { on: 'dusk', hours: 1 },
});

/** Voltage after a while in full sun, in so many steps, and the error that the last of them states. */
function charged(from_V: number, duration_s: number, steps: number): { end_V: number; error_V: number } {
  const stepper = new LampStepper(LAMP);
  stepper.setTolerance(1e-7);
  stepper.restAt(from_V);
  stepper.setConditions(1000, 25);
  for (let k = 0; k < steps; k++) {
    expect(stepper.tryStep(duration_s / steps)).toBe(true);
    stepper.accept();
  }
  // At rest and without resistance, the terminal has the capacitor's own voltage.
  return { end_V: stepper.terminal_V, error_V: stepper.error_V };
}

it('a step over the bend of the diode states 13 to 22 times its true error, in the mean over where it begins', () => {
  const logs = [1.2, 1.6, 1.8, 1.9, 2.0, 2.1].map((from_V) => {
    const { end_V, error_V } = charged(from_V, 300, 1);
    return Math.log(error_V / Math.abs(end_V - charged(from_V, 300, 2000).end_V));
  });
  const mean = Math.exp(logs.reduce((sum, log) => sum + log, 0) / logs.length);
  // Steps go with the cube root of the estimate: half the weight of the diode's curvature doubles the error that passes,
  // twice the weight takes a quarter more steps.
  expect(mean).toBeGreaterThan(13);
  expect(mean).toBeLessThan(22);
});
