import { piecewiseLinear } from '../../common/piecewiseLinear.ts';
import type { DriverLaw } from './params.ts';

/**
 * Current the driver draws from the store, amperes.
 *
 * in: law; store_V at the driver's terminals, above 0; output_V, LED forward voltage plus rectifier drop (boost only);
 *   beyond, true where a boost's choke no longer runs empty and the stated limit holds
 * out: amperes
 * valid: boost, V^2 D^2 / (2 L f) * Vout / (Vout - V), exact for a choke without losses that runs empty each cycle,
 *   while V < (1 - D) Vout
 * source: EricksonMaksimovic2001, chapter 5 (with the output held by the LED)
 */
export function driverCurrent_A(law: DriverLaw, store_V: number, output_V: number, beyond: boolean): number {
  switch (law.kind) {
    case 'power':
      return law.power_W / store_V;
    case 'current':
      return law.current_A;
    case 'conductance':
      return law.conductance_S * store_V;
    case 'table':
      return piecewiseLinear(law.store_V, law.current_A, store_V);
    case 'boost':
      return beyond ? law.limit_A : (law.choke_S * store_V * output_V) / (output_V - store_V);
  }
}
