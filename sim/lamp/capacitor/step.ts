import { STANDARD_TEMPERATURE_DEG_C } from '../../common/constants.ts';
import { exp, expm1 } from '../../common/elementary/exp.ts';
import { log } from '../../common/elementary/log.ts';
import { piecewiseLinear } from '../../common/numeric.ts';
import type { CapacitorParams } from './params.ts';

/**
 * Charge of the main branch at a voltage, coulombs.
 * source: ZubietaBonert2000
 */
export function capacitorCharge_C(capacitor: CapacitorParams, main_V: number): number {
  return main_V * (capacitor.capacitance_F + 0.5 * capacitor.rise_F_V * main_V);
}

/**
 * Voltage of the main branch at a charge, volts: the inverse of capacitorCharge_C.
 *
 * in: capacitor; charge_C, 0 or more
 */
export function capacitorVoltage_V(capacitor: CapacitorParams, charge_C: number): number {
  const c = capacitor.capacitance_F;
  return (2 * charge_C) / (c + Math.sqrt(c * c + 2 * capacitor.rise_F_V * charge_C));
}

/**
 * Energy of the main branch at a voltage, joules: the integral of V dQ = C0 V^2 / 2 + C1 V^3 / 3.
 * source: ZubietaBonert2000
 */
export function capacitorEnergy_J(capacitor: CapacitorParams, main_V: number): number {
  return main_V * main_V * (0.5 * capacitor.capacitance_F + (capacitor.rise_F_V * main_V) / 3);
}

/**
 * How much the leakage is larger at a temperature than at 25 degC.
 *
 * in: capacitor; capacitor_degC
 * source: common practice, no source (doubling per 10 K, from memory)
 */
export function leakageWarming(capacitor: CapacitorParams, capacitor_degC: number): number {
  return exp((Math.LN2 * (capacitor_degC - STANDARD_TEMPERATURE_DEG_C)) / capacitor.leakageDoubling_K);
}

/** Where the growth of the series resistance is stated. */
const COLD_DEG_C = [-40, -20, STANDARD_TEMPERATURE_DEG_C] as const;

/**
 * How many times larger the series resistance is at a temperature than at 25 degC: from 25 to -20 degC and from there to
 * -40 degC by an even factor for each kelvin, beyond the ends as at them.
 *
 * in: capacitor; capacitor_degC
 * source: common practice, no source (growth in the cold, from memory)
 * @example seriesGrowthAt({ seriesGrowth: { atMinus20: 4, atMinus40: 16 } }, 2.5); // => 2
 */
export function seriesGrowthAt(
  { seriesGrowth: { atMinus20, atMinus40 } }: Pick<CapacitorParams, 'seriesGrowth'>,
  capacitor_degC: number,
): number {
  return exp(piecewiseLinear(COLD_DEG_C, [log(atMinus40), log(atMinus20), 0], capacitor_degC));
}

/**
 * Leakage current of the bank at 25 degC, amperes: zero at 0 V, the stated value at the rated voltage, between them
 * falling by a factor of e each e-fold of voltage, or in proportion to it.
 *
 * in: capacitor; main_V
 * departs: expm1 instead of exp, so that an empty capacitor does not leak; 3 percent lower at 1 V with an e-fold of 0.3 V
 */
export function leakageCurrent_A(capacitor: CapacitorParams, main_V: number): number {
  const { leakageEFold_V } = capacitor;
  const grown = leakageEFold_V === Number.POSITIVE_INFINITY ? main_V : expm1(main_V / leakageEFold_V);
  return leakageScale_A(capacitor) * grown;
}

/** How steeply the leakage of the bank grows with the voltage at 25 degC, siemens. in: capacitor; main_V */
function leakageSlope_S(capacitor: CapacitorParams, main_V: number): number {
  const { leakageEFold_V } = capacitor;
  const scale_A = leakageScale_A(capacitor);
  return leakageEFold_V === Number.POSITIVE_INFINITY
    ? scale_A
    : (scale_A * exp(main_V / leakageEFold_V)) / leakageEFold_V;
}

/** What the leakage's e-folds multiply, amperes; of a resistance, amperes a volt. */
function leakageScale_A({ leakage_A, leakageEFold_V, rated_V }: CapacitorParams): number {
  return (
    leakage_A / (leakageEFold_V === Number.POSITIVE_INFINITY ? rated_V : expm1(rated_V / leakageEFold_V))
  );
}

/** A capacitor on the bench: held at a voltage, then left alone or on a resistor. */
export interface BenchCourse {
  /** At its terminals as the course begins. */
  start_V: number;
  held_h: number;
  /** Infinity for a rest. */
  load_ohm: number;
  capacitor_degC: number;
  /** Rising, seconds from the beginning. */
  times_s: readonly number[];
}

/** A branch follows the capacitor once so many of its time constants have passed. */
const SETTLED = 12;
/** Against a load it lags behind by its time constant over the load's: no more than this is let pass. */
const LAG = 3e-3;
const STEPS_A_TIME_CONSTANT = 5;
const LEAST_STEPS = 40;

/**
 * Voltage of a capacitor at its terminals at some times of a rest or a discharge, volts.
 *
 * in: capacitor; course
 * out: volts, one a time
 * valid: held long enough at the stated voltage that only the delayed branches still fill, empty before; Runge-Kutta
 *   steps of a fifth of the shortest time constant, a branch that has settled being taken as part of the capacitor: 1e-5
 *   of the voltage
 * source: ZubietaBonert2000 (the circuit)
 */
export function benchVoltages(capacitor: CapacitorParams, course: BenchCourse): number[] {
  const { start_V, held_h, load_ohm, times_s, capacitor_degC } = course;
  const loaded = Number.isFinite(load_ohm);
  const whole_S = loaded ? 1 / (load_ohm + capacitor.series_ohm) : 0;
  const main_V = loaded ? start_V * (1 + capacitor.series_ohm / load_ohm) : start_V;
  const warming = leakageWarming(capacitor, capacitor_degC);
  const own_s = whole_S === 0 ? Number.POSITIVE_INFINITY : capacitor.capacitance_F / whole_S;
  const constants = capacitor.delayed.map(
    ({ resistance_ohm, capacitance_F }) => resistance_ohm * capacitance_F,
  );
  const filled = (k: number) => main_V * -expm1((-held_h * 3600) / constants[k]!);
  let state: State = [main_V, filled(0), filled(1)];
  let apart: Apart = [capacitor.delayed[0].capacitance_F > 0, capacitor.delayed[1].capacitance_F > 0];

  const slopes = (at: State): State => {
    const v = Math.max(at[0], 0);
    let out_A = leakageCurrent_A(capacitor, v) * warming + v * whole_S;
    let capacitance_F = capacitor.capacitance_F + capacitor.rise_F_V * v;
    const rates: State = [0, 0, 0];
    for (const k of [0, 1] as const) {
      const branch = capacitor.delayed[k];
      if (!apart[k]) {
        capacitance_F += branch.capacitance_F;
        continue;
      }
      const into_A = (v - at[k + 1]!) / branch.resistance_ohm;
      out_A += into_A;
      rates[k + 1] = into_A / branch.capacitance_F;
    }
    rates[0] = -out_A / capacitance_F;
    return rates;
  };
  const last_s = times_s.at(-1)!;
  let now_s = 0;
  return times_s.map((until_s) => {
    while (now_s < until_s) {
      // Without a load own_s is infinite, and nothing lags.
      const stays = (k: 0 | 1) =>
        apart[k] && (now_s < SETTLED * constants[k]! || constants[k]! > LAG * own_s);
      apart = [stays(0), stays(1)];
      const leak_S = Math.abs(leakageSlope_S(capacitor, Math.max(state[0], 0))) * warming;
      const quick_s = Math.min(
        apart[0] ? constants[0]! : Infinity,
        apart[1] ? constants[1]! : Infinity,
        capacitor.capacitance_F / (whole_S + leak_S),
      );
      const step_s = Math.min(quick_s / STEPS_A_TIME_CONSTANT, last_s / LEAST_STEPS, until_s - now_s);
      state = rungeKutta(state, step_s, slopes);
      now_s = until_s - now_s <= step_s ? until_s : now_s + step_s;
    }
    const v = Math.max(state[0], 0);
    return loaded ? v * load_ohm * whole_S : v;
  });
}

type State = [main_V: number, fast_V: number, delayed_V: number];
type Apart = [fast: boolean, slow: boolean];

function rungeKutta(state: State, step_s: number, slopes: (state: State) => State): State {
  const moved = (by: State, share: number): State => [
    state[0] + by[0] * share * step_s,
    state[1] + by[1] * share * step_s,
    state[2] + by[2] * share * step_s,
  ];
  const a = slopes(state);
  const b = slopes(moved(a, 0.5));
  const c = slopes(moved(b, 0.5));
  const d = slopes(moved(c, 1));
  return moved([mix(a, b, c, d, 0), mix(a, b, c, d, 1), mix(a, b, c, d, 2)], 1);
}

function mix(a: State, b: State, c: State, d: State, k: 0 | 1 | 2): number {
  return (a[k] + 2 * b[k] + 2 * c[k] + d[k]) / 6;
}
