import type { Bench, Prior } from '../../common/Bench.ts';
import { thermalVoltage_V } from '../../common/constants.ts';
import {
  type Estimate,
  NO_ERROR,
  type PartFit,
  ROUNDING,
  rounded,
  STANDARD_ERRORS_90,
  STATED_OVER_STANDARD,
  standardShare,
} from '../../common/Estimate.ts';
import { exp } from '../../common/elementary/exp.ts';
import { hypot } from '../../common/elementary/hypot.ts';
import { log } from '../../common/elementary/log.ts';
import {
  boundsOf,
  fitReadings,
  fittedReadings,
  type ReadingsFit,
  reducedChiSquare,
} from '../../common/fitReadings.ts';
import type { Report, ValueProblem } from '../../common/InputProblem.ts';
import { type DiodeParams, idealityProblem } from './params.ts';
import type { DiodeReadings, DiodeSection } from './schema.ts';
import { diodeDrop_V } from './step.ts';

/** A blocking diode found from readings. */
export interface DiodeFit extends PartFit {
  keys: { raw: Pick<DiodeParams, 'saturation_A' | 'ideality' | 'series_ohm'> };
}

const AT = { logSaturation: 0, ideality: 1, series_ohm: 2, voltmeter: 3, warmth: 4 } as const;
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
export function diodeFromReadings(
  section: DiodeSection,
  readings: DiodeReadings,
  report: Report,
): DiodeFit | undefined {
  const falling = fallingDrop(readings.forward);
  if (falling !== undefined) {
    report(falling);
    return undefined;
  }
  const solved = fitReadings(benchDiode(section, readings));
  const ideality = solved.values[AT.ideality]!;
  const strange = idealityProblem(ideality, {
    path: ['readings', 'forward'],
    got: 'drops',
    fix: 'check currents and drops; a warm diode read at a high current looks like this',
  });
  if (strange !== undefined) {
    report(strange);
    return undefined;
  }
  const scatter = reducedChiSquare(solved, report, 'diode');
  if (scatter === undefined) return undefined;
  const notes = [...scatter.notes];
  const count = readings.forward.length;
  if (count < 2) {
    notes.push(
      'one reading leaves the ideality at the value of the scenario; read a second, at a tenth of the current',
    );
  }
  return {
    estimates: estimatesOf(solved, count, scatter.factor),
    readings: fittedReadings(solved),
    notes,
    keys: {
      raw: rounded({
        saturation_A: exp(solved.values[AT.logSaturation]!),
        ideality,
        series_ohm: solved.values[AT.series_ohm]!,
      }),
    },
  };
}

function benchDiode(section: DiodeSection, readings: DiodeReadings): Bench {
  const { forward, diode_degC } = readings;
  const first = forward[0]!;
  const eFold_V = section.ideality * thermalVoltage_V(diode_degC);
  const warmth_K = Math.max(readings.temperature_error_K / STATED_OVER_STANDARD, NO_ERROR);
  const unknowns = [
    { start: log(first.current_mA / 1000) - first.drop_V / eFold_V, scale: 1 },
    { start: section.ideality, scale: 0.1, least: 0.5 },
    { start: section.series_ohm, scale: 0.2, least: 0 },
    { start: 0, scale: standardShare(readings.voltage_error_percent) },
    { start: 0, scale: warmth_K },
  ];
  const prior = (at: number, error: number): Prior => ({ at, value: unknowns[at]!.start, error });
  const priors = [prior(AT.voltmeter, unknowns[AT.voltmeter]!.scale), prior(AT.warmth, warmth_K)];
  if (forward.length < 2) priors.push(prior(AT.ideality, LATITUDE.ideality));
  if (forward.length < 3) {
    priors.push(prior(AT.series_ohm, Math.max(LATITUDE.series_ohm * section.series_ohm, NO_ERROR)));
  }
  return {
    unknowns,
    priors,
    readings: forward.map(({ current_mA, drop_V }, i) => ({
      what: `drop at ${current_mA} mA`,
      unit: 'V',
      path: ['readings', 'forward', i, 'drop_V'],
      measured: drop_V,
      error: hypot(
        (readings.voltage_step_mV / 1000) * ROUNDING,
        (eFold_V + (current_mA / 1000) * section.series_ohm) * standardShare(readings.current_error_percent),
      ),
    })),
    shownInto: (target, values) => {
      const diode = {
        saturation_A: exp(values[AT.logSaturation]!),
        ideality: values[AT.ideality]!,
        series_ohm: values[AT.series_ohm]!,
        barrier_eV: section.barrier_eV,
      };
      forward.forEach(({ current_mA }, i) => {
        const drop_V = diodeDrop_V(diode, current_mA / 1000, diode_degC + values[AT.warmth]!);
        target[i] = drop_V * (1 + values[AT.voltmeter]!);
      });
    },
  };
}

function estimatesOf(solved: ReadingsFit, count: number, factor: number): Estimate[] {
  const saturation_A = exp(solved.values[AT.logSaturation]!);
  const times = exp(STANDARD_ERRORS_90 * factor * solved.errors[AT.logSaturation]!);
  const estimates: Estimate[] = [
    {
      key: 'saturation_A',
      what: 'saturation current at 25 degC',
      unit: 'A',
      value: saturation_A,
      low: saturation_A / times,
      high: saturation_A * times,
    },
    { key: 'ideality', what: 'ideality factor', unit: '', ...boundsOf(solved, AT.ideality, factor) },
    { key: 'series_ohm', what: 'series resistance', unit: 'ohm', ...boundsOf(solved, AT.series_ohm, factor) },
  ];
  return estimates.slice(0, Math.min(count, 3));
}

/** Two readings of which the drop does not rise with the current. */
function fallingDrop(forward: DiodeReadings['forward']): ValueProblem | undefined {
  const order = forward.map((_, k) => k).sort((a, b) => forward[a]!.current_mA - forward[b]!.current_mA);
  for (let i = 1; i < order.length; i++) {
    const [low, high] = [forward[order[i - 1]!]!, forward[order[i]!]!];
    if (high.current_mA === low.current_mA || high.drop_V > low.drop_V) continue;
    return {
      code: 'SCENARIO_CONFLICT',
      path: ['readings', 'forward', order[i]!, 'drop_V'],
      got: `${high.drop_V} V at ${high.current_mA} mA, but ${low.drop_V} V at ${low.current_mA} mA`,
      expected: 'a drop that rises with the current',
      fix: 'were two readings exchanged, or did the diode warm up? Read them again',
    };
  }
  return undefined;
}
