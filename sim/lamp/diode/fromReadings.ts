import { KELVIN_AT_ZERO_CELSIUS, THERMAL_VOLTAGE_V_PER_K } from '../../common/constants.ts';
import { type PartFit, STANDARD_ERRORS_90, STATED_OVER_STANDARD } from '../../common/Estimate.ts';
import type { Report } from '../../common/InputProblem.ts';
import { type LeastSquaresFit, leastSquares } from '../../common/leastSquares.ts';
import { reducedChiSquare } from '../../common/reducedChiSquare.ts';
import type { DiodeParams } from './params.ts';
import type { DiodeReadings, DiodeSection } from './schema.ts';
import { diodeSaturation_A } from './step.ts';

/** A blocking diode found from readings. */
export interface DiodeFit extends PartFit {
  keys: { raw: Pick<DiodeParams, 'saturation_A' | 'ideality' | 'series_ohm'> };
}

const AT = { logSaturation: 0, ideality: 1, series_ohm: 2, voltmeter: 3, warmth: 4 } as const;
const ROUNDING = 1 / Math.sqrt(12);
const NOTHING = 1e-9;
/** What one reading cannot tell: how far ideality and series resistance may be off the section's. */
const LATITUDE = { ideality: 0.1, series_ohm: 0.2 };

/**
 * A blocking diode from its forward voltage at one or more currents, with 90 percent intervals.
 *
 * in: section, the diode; readings; report, takes readings that no diode can show
 * out: saturation current at 25 degC, ideality and series resistance, or undefined after a problem
 * valid: one reading gives the saturation current, two the ideality too, three or more the series resistance; what is
 *   left keeps the section's value, with the latitude of an assumption
 * source: Shockley1949, JCGM100 (intervals from the slopes)
 */
export function fromReadings(
  section: DiodeSection,
  readings: DiodeReadings,
  report: Report,
): DiodeFit | undefined {
  const { forward, diode_degC } = readings;
  if (!checkForward(forward, report)) return undefined;
  const kelvin = diode_degC + KELVIN_AT_ZERO_CELSIUS;
  const half = (percent: number) => Math.max(percent / 100 / STATED_OVER_STANDARD, NOTHING);
  const warmth_K = Math.max(readings.temperature_error_K / STATED_OVER_STANDARD, NOTHING);
  const first = forward[0]!;
  const e_fold_V = section.ideality * THERMAL_VOLTAGE_V_PER_K * kelvin;
  const unknowns = [
    { start: Math.log(first.current_mA / 1000) - first.drop_V / e_fold_V, scale: 1 },
    { start: section.ideality, scale: 0.1, least: 0.5 },
    { start: section.series_ohm, scale: 0.2, least: 0 },
    { start: 0, scale: half(readings.voltage_error_percent) },
    { start: 0, scale: warmth_K },
  ];
  const prior = (at: number, error: number) => ({ at, value: unknowns[at]!.start, error });
  const known = [prior(AT.voltmeter, unknowns[AT.voltmeter]!.scale), prior(AT.warmth, warmth_K)];
  if (forward.length < 2) known.push(prior(AT.ideality, LATITUDE.ideality));
  if (forward.length < 3) {
    known.push(
      prior(AT.series_ohm, section.series_ohm === 0 ? NOTHING : LATITUDE.series_ohm * section.series_ohm),
    );
  }
  const diodeAt = (values: readonly number[]): DiodeParams => ({
    kind: 'junction',
    saturation_A: Math.exp(values[AT.logSaturation]!),
    ideality: values[AT.ideality]!,
    series_ohm: values[AT.series_ohm]!,
    on_ohm: Number.NaN,
    leak_S: 0,
    leakDoubling_K: section.reverse_doubling_K,
    barrier_eV: section.barrier_eV,
  });
  const drop_V = (values: readonly number[], current_A: number) => {
    const diode = diodeAt(values);
    const warm_degC = diode_degC + values[AT.warmth]!;
    const thermal_V = diode.ideality * THERMAL_VOLTAGE_V_PER_K * (warm_degC + KELVIN_AT_ZERO_CELSIUS);
    return (
      thermal_V * Math.log1p(current_A / diodeSaturation_A(diode, warm_degC)) + current_A * diode.series_ohm
    );
  };
  const shown_V = (values: readonly number[], current_A: number) =>
    drop_V(values, current_A) * (1 + values[AT.voltmeter]!);
  const facts = forward.map(({ current_mA, drop_V: measured }, i) => ({
    what: `drop at ${current_mA} mA`,
    unit: 'V' as const,
    path: ['readings', 'forward', i, 'drop_V'],
    measured,
    error: Math.hypot(
      (readings.voltage_step_mV / 1000) * ROUNDING,
      (e_fold_V + (current_mA / 1000) * section.series_ohm) * half(readings.current_error_percent),
    ),
  }));
  const solved = leastSquares(unknowns, facts.length + known.length, (target, values) => {
    facts.forEach(({ measured, error }, i) => {
      target[i] = (shown_V(values, forward[i]!.current_mA / 1000) - measured) / error;
    });
    known.forEach(({ at, value, error }, i) => {
      target[facts.length + i] = (values[at]! - value) / error;
    });
  });
  const { ideality } = diodeAt(solved.values);
  if (!(ideality >= 0.8 && ideality <= 3)) {
    report({
      code: 'SCENARIO_CONFLICT',
      path: ['readings', 'forward'],
      got: `drops that give an ideality of ${ideality.toFixed(2)}`,
      expected: 'an ideality of 0.8 to 3',
      fix: 'check currents and drops; a warm diode read at a high current looks like this',
    });
    return undefined;
  }
  const scatter = reducedChiSquare(solved, facts, report, 'diode');
  if (scatter === undefined) return undefined;
  return fitOf(solved, forward.length, STANDARD_ERRORS_90 * scatter.factor, {
    notes: scatter.notes,
    readings: facts.map((fact, i) => ({
      what: fact.what,
      unit: fact.unit,
      measured: fact.measured,
      error: fact.error,
      fitted: shown_V(solved.values, forward[i]!.current_mA / 1000),
    })),
  });
}

function fitOf(
  { values, errors }: LeastSquaresFit,
  count: number,
  half: number,
  rest: Pick<PartFit, 'notes' | 'readings'>,
): DiodeFit {
  const saturation_A = Math.exp(values[AT.logSaturation]!);
  const factor = Math.exp(half * errors[AT.logSaturation]!);
  const bounds = (at: number) => ({
    value: values[at]!,
    low: Math.max(0, values[at]! - half * errors[at]!),
    high: values[at]! + half * errors[at]!,
  });
  const digits = (value: number) => Number(value.toPrecision(6));
  const notes = [...rest.notes];
  if (count < 2)
    notes.push(
      'one reading leaves the ideality at the value of the scenario; read a second, at a tenth of the current',
    );
  return {
    ...rest,
    notes,
    estimates: [
      {
        key: 'saturation_A',
        what: 'saturation current at 25 degC',
        unit: 'A',
        value: saturation_A,
        low: saturation_A / factor,
        high: saturation_A * factor,
      },
      ...(count < 2 ? [] : [{ key: 'ideality', what: 'ideality factor', unit: '', ...bounds(AT.ideality) }]),
      ...(count < 3
        ? []
        : [{ key: 'series_ohm', what: 'series resistance', unit: 'ohm', ...bounds(AT.series_ohm) }]),
    ],
    keys: {
      raw: {
        saturation_A: digits(saturation_A),
        ideality: digits(values[AT.ideality]!),
        series_ohm: digits(values[AT.series_ohm]!),
      },
    },
  };
}

function checkForward(forward: DiodeReadings['forward'], report: Report): boolean {
  const order = forward.map((_, k) => k).sort((a, b) => forward[a]!.current_mA - forward[b]!.current_mA);
  for (let i = 1; i < order.length; i++) {
    const [low, high] = [forward[order[i - 1]!]!, forward[order[i]!]!];
    if (high.current_mA === low.current_mA || high.drop_V > low.drop_V) continue;
    report({
      code: 'SCENARIO_CONFLICT',
      path: ['readings', 'forward', order[i]!, 'drop_V'],
      got: `${high.drop_V} V at ${high.current_mA} mA, but ${low.drop_V} V at ${low.current_mA} mA`,
      expected: 'a drop that rises with the current',
      fix: 'were two readings exchanged, or did the diode warm up? Read them again',
    });
    return false;
  }
  return true;
}
