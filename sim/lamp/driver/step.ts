import { piecewiseLinear } from '../../common/numeric.ts';
import type { DriverLaw } from './params.ts';

/**
 * Current the driver draws from the capacitor, amperes.
 *
 * in: law; capacitor_V at the driver's terminals, above 0; output_V, LED forward voltage plus rectifier drop (boost only);
 *   beyond, true where a boost's inductor no longer runs empty and the stated limit holds
 * out: amperes
 * valid: boost, V^2 D^2 / (2 L f) * Vout / (Vout - V), exact for a inductor without losses that runs empty each cycle,
 *   while V < (1 - D) Vout
 * source: EricksonMaksimovic2001, chapter 5 (with the output held by the LED)
 */
export function driverCurrent_A(
  law: DriverLaw,
  capacitor_V: number,
  output_V: number,
  beyond: boolean,
): number {
  switch (law.kind) {
    case 'power':
      return law.power_W / capacitor_V;
    case 'current':
      return law.current_A;
    case 'conductance':
      return law.conductance_S * capacitor_V;
    case 'table':
      return piecewiseLinear(law.capacitor_V, law.current_A, capacitor_V);
    case 'boost':
      return beyond ? law.limit_A : (law.inductor_S * capacitor_V * output_V) / (output_V - capacitor_V);
  }
}
