import { STANDARD_TEMPERATURE_DEG_C } from '../common/constants.ts';
import { log } from '../common/elementary/log.ts';
import { square } from '../common/numeric.ts';
import type { CapacitorParams } from './capacitor/params.ts';
import { fullSunReachable } from './checkLamp.ts';
import type { DriverLaw } from './driver/step.ts';
import type { LampParams } from './params.ts';

/** Seconds from a voltage down to the cut-off. */
export interface LitTime {
  /** By the driver's law. They grow as what it draws falls, and with a boost's inductance. */
  byLaw_s: number;
  /** Above the boundary of discontinuous conduction, by the current limit: no inductor moves them. */
  limited_s: number;
}

/**
 * How long a lamp shines from a voltage down to its cut-off, in the dark, by closed form.
 *
 * The bank gives I = P / V, so that C(V) dV/dt = -P(V) / V with C(V) = C0 + C1 V. A boost in discontinuous conduction
 * takes P = V^2 G Vout / (Vout - V) with G = D^2 / (2 L f), hence
 * t = integral of (C0 + C1 V) (Vout - V) / (G Vout V) dV from the cut-off Vc to V
 *   = [C0 ln(V / Vc) + (C1 - C0 / Vout) (V - Vc) - C1 (V^2 - Vc^2) / (2 Vout)] / G.
 * A driver that takes s V^e amperes gives the integral of (C0 + C1 V) / (s V^e) dV: stored energy over power (e = -1),
 * charge over current (0), [C0 ln(V / Vc) + C1 (V - Vc)] / s for a conductance (1). Above (1 - D) Vout a boost draws its
 * current limit.
 *
 * in: lamp; from_V
 * out: seconds; NaN for a measured table, which has no such form
 * valid: no light, leakage, resistance or delayed charge; always on at full light; Vout, the LED's forward voltage plus the
 *   rectifier's drop, held at what it is halfway, where an LED's own falls by a tenth or so as the bank empties
 * source: derived here; EricksonMaksimovic2001, chapter 5, for the currents of a cycle
 */
export function litTime(
  { capacitor, driver, load }: Pick<LampParams, 'capacitor' | 'driver' | 'load'>,
  from_V: number,
): LitTime {
  const { law, cutoff_V } = driver;
  const boundary_V = Math.max(cutoff_V, Math.min(from_V, load.dcmBoundary_V));
  const output_V = load.output_V[Math.round((cutoff_V + boundary_V) / 2 / load.step_V)]!;
  const limited = law.limited;
  return {
    byLaw_s: secondsBetween(capacitor, law, output_V, cutoff_V, boundary_V),
    limited_s:
      limited === undefined || from_V <= boundary_V
        ? 0
        : secondsBetween(capacitor, limited, output_V, boundary_V, from_V),
  };
}

function secondsBetween(
  { capacitance_F: c0, rise_F_V: c1 }: CapacitorParams,
  law: DriverLaw,
  output_V: number,
  low_V: number,
  high_V: number,
): number {
  // Integrals of V^-1, 1, V and V^2.
  const inverse = log(high_V / low_V);
  const plain = high_V - low_V;
  const linear = (square(high_V) - square(low_V)) / 2;
  const cubic = (high_V * high_V * high_V - low_V * low_V * low_V) / 3;
  if (law.inductor !== undefined) {
    const { inductance_uH, frequency_kHz, duty } = law.inductor;
    const conductance_S = square(duty) / (2 * inductance_uH * 1e-6 * frequency_kHz * 1e3);
    return (c0 * inverse + (c1 - c0 / output_V) * plain - (c1 / output_V) * linear) / conductance_S;
  }
  const scale = law.current_A(1, output_V);
  if (law.exponent === -1) return (c0 * linear + c1 * cubic) / scale;
  if (law.exponent === 0) return (c0 * plain + c1 * linear) / scale;
  if (law.exponent === 1) return (c0 * inverse + c1 * plain) / scale;
  return Number.NaN;
}

/** The voltage of a full bank: what full sun fills it to, or its rating, or its limiter, whichever is least. */
export function fullVoltage_V(lamp: LampParams): number {
  const { reachable_V } = fullSunReachable(lamp, STANDARD_TEMPERATURE_DEG_C);
  return Math.min(reachable_V, lamp.capacitor.rated_V, lamp.capacitor.limiter_V);
}
