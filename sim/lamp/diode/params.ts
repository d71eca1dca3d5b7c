import { thermalVoltage_V } from '../../common/constants.ts';
import { expm1 } from '../../common/elementary/exp.ts';
import { log } from '../../common/elementary/log.ts';
import type { Report, ValueProblem } from '../../common/InputProblem.ts';
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

/**
 * Parameters of the blocking diode, from its forward points or its raw parameters.
 *
 * in: section, as the schema gives it, library part merged in and readings settled; report, takes what cannot be
 * out: the parameters, or undefined after a problem
 * source: Shockley1949
 */
export function diodeParams(section: DiodeSection, report: Report): DiodeParams | undefined {
  const { raw, switch_on_ohm, series_ohm } = section;
  const shared = {
    kind: 'junction',
    on_ohm: Number.NaN,
    leak_S: (section.reverse_leakage_uA * 1e-6) / section.reverse_voltage_V,
    leakDoubling_K: section.reverse_doubling_K,
    barrier_eV: section.barrier_eV,
  } as const;
  if (switch_on_ohm !== undefined) {
    return { ...shared, kind: 'switch', saturation_A: 0, ideality: 1, series_ohm, on_ohm: switch_on_ohm };
  }
  const junction = raw ?? throughPoints(section, report);
  return junction && { ...shared, ...junction };
}

/** The junction whose drop is that of the forward points. */
function throughPoints({ forward_drop, series_ohm, ideality: stated }: DiodeSection, report: Report) {
  if (forward_drop === undefined) {
    report({
      code: 'SCENARIO_MISSING_KEY',
      path: ['forward_drop'],
      got: 'nothing',
      expected: 'a forward point, a library part, switch_on_ohm or raw model parameters',
      fix: 'add forward_drop: [{ current_mA: 10, drop_V: 0.25 }], or part: small-schottky',
    });
    return undefined;
  }
  const points = forward_drop.map(({ current_mA, drop_V }) => {
    const current_A = current_mA / 1000;
    return {
      current_mA,
      current_A,
      drop_V,
      series_V: current_A * series_ohm,
      junction_V: drop_V - current_A * series_ohm,
    };
  });
  const drowned = points.find(({ junction_V }) => junction_V <= 0);
  if (drowned !== undefined) {
    report({
      code: 'SCENARIO_CONFLICT',
      path: ['series_ohm'],
      got: `${series_ohm} ohm, which alone drops ${drowned.series_V.toFixed(3)} V at ${drowned.current_mA} mA`,
      expected: `less than the forward voltage there, ${drowned.drop_V} V`,
      fix: 'give a smaller series_ohm, or leave it out',
    });
    return undefined;
  }
  const [first, second] = [points[0]!, points[1]];
  const ideality =
    second === undefined
      ? stated
      : (second.junction_V - first.junction_V) /
        (thermalVoltage_V() * log(second.current_A / first.current_A));
  const problem = idealityProblem(ideality, {
    path: ['forward_drop'],
    got: 'two points',
    fix: 'check both points; a drop that rises faster than that at the higher current is series_ohm',
  });
  if (problem !== undefined) {
    report(problem);
    return undefined;
  }
  const saturation_A = first.current_A / expm1(first.junction_V / (ideality * thermalVoltage_V()));
  return { saturation_A, ideality, series_ohm };
}

/** An ideality that no diode has, from readings or points; words about them. */
export function idealityProblem(
  ideality: number,
  { got, ...words }: Pick<ValueProblem, 'path' | 'got' | 'fix'>,
): ValueProblem | undefined {
  if (ideality >= 0.8 && ideality <= 3) return undefined;
  return {
    ...words,
    code: 'SCENARIO_CONFLICT',
    got: `${got} that give an ideality of ${ideality.toFixed(2)}`,
    expected: 'an ideality of 0.8 to 3',
  };
}
