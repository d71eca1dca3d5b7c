import {
  KELVIN_AT_ZERO_CELSIUS,
  STANDARD_TEMPERATURE_DEG_C,
  THERMAL_VOLTAGE_V_PER_K,
} from '../../common/constants.ts';
import type { Report } from '../../common/InputProblem.ts';
import type { DiodeSection } from './schema.ts';

/** The blocking diode at 25 degC, SI units. */
export interface DiodeParams {
  kind: 'junction' | 'switch';
  saturation_A: number;
  ideality: number;
  series_ohm: number;
  /** Resistance of a switch when on; NaN for a junction. */
  on_ohm: number;
  /** Leakage that bridges the diode, siemens. */
  leak_S: number;
  leakDoubling_K: number;
  barrier_eV: number;
}

const THERMAL_AT_25_V = THERMAL_VOLTAGE_V_PER_K * (KELVIN_AT_ZERO_CELSIUS + STANDARD_TEMPERATURE_DEG_C);

/**
 * Parameters of the blocking diode, from its forward points or its raw parameters.
 *
 * in: section, as the schema gives it, library part merged in and readings settled; report, takes what cannot be
 * out: the parameters, or undefined after a problem
 * source: Shockley1949
 */
export function diodeParams(section: DiodeSection, report: Report): DiodeParams | undefined {
  const shared = {
    on_ohm: Number.NaN,
    leak_S: (section.reverse_leakage_uA * 1e-6) / section.reverse_voltage_V,
    leakDoubling_K: section.reverse_doubling_K,
    barrier_eV: section.barrier_eV,
  };
  if (section.switch_on_ohm !== undefined) {
    const on_ohm = section.switch_on_ohm;
    return {
      ...shared,
      kind: 'switch',
      saturation_A: 0,
      ideality: 1,
      series_ohm: section.series_ohm,
      on_ohm,
    };
  }
  if (section.raw !== undefined) return { ...shared, kind: 'junction', ...section.raw };
  const points = section.forward_drop;
  if (points === undefined) {
    report({
      code: 'SCENARIO_MISSING_KEY',
      path: ['forward_drop'],
      got: 'nothing',
      expected: 'a forward point, a library part, switch_on_ohm or raw model parameters',
      fix: 'add forward_drop: [{ current_mA: 10, drop_V: 0.25 }], or part: small-schottky',
    });
    return undefined;
  }
  const junctionDrop = (point: (typeof points)[number]) =>
    point.drop_V - (point.current_mA / 1000) * section.series_ohm;
  const drowned = points.find((point) => junctionDrop(point) <= 0);
  if (drowned !== undefined) {
    report({
      code: 'SCENARIO_CONFLICT',
      path: ['series_ohm'],
      got: `${section.series_ohm} ohm, which alone drops ${((drowned.current_mA / 1000) * section.series_ohm).toFixed(3)} V at ${drowned.current_mA} mA`,
      expected: `less than the forward voltage there, ${drowned.drop_V} V`,
      fix: 'give a smaller series_ohm, or leave it out',
    });
    return undefined;
  }
  const [first, second] = points;
  let ideality = section.ideality;
  if (second !== undefined) {
    ideality =
      (junctionDrop(second) - junctionDrop(first!)) /
      (THERMAL_AT_25_V * Math.log(second.current_mA / first!.current_mA));
    if (!(ideality >= 0.8 && ideality <= 3)) {
      report({
        code: 'SCENARIO_CONFLICT',
        path: ['forward_drop'],
        got: `two points that give an ideality of ${ideality.toFixed(2)}`,
        expected: 'an ideality of 0.8 to 3',
        fix: 'check both points; a drop that rises faster than that at the higher current is series_ohm',
      });
      return undefined;
    }
  }
  const saturation_A =
    first!.current_mA / 1000 / Math.expm1(junctionDrop(first!) / (ideality * THERMAL_AT_25_V));
  return { ...shared, kind: 'junction', saturation_A, ideality, series_ohm: section.series_ohm };
}
