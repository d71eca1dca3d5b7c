import { STATED_OVER_STANDARD } from '../../common/Estimate.ts';
import type { Unknown } from '../../common/leastSquares.ts';
import { type BenchCourse, benchVoltages } from './benchVoltages.ts';
import { delayedBranches } from './delayedBranches.ts';
import type { CapacitorParams } from './params.ts';
import type { CapacitorReadings, CapacitorSection } from './schema.ts';

/** Places of the unknowns; hours and fold as logarithms; then the start voltage of each course. */
export const AT = {
  capacitance: 0,
  share: 1,
  leakage: 2,
  hours: 3,
  fold: 4,
  rise: 5,
  voltmeter: 6,
  resistor: 7,
  starts: 8,
} as const;

/** A capacitor at the bench: its unknowns, what is known of them beforehand, and its readings. */
export interface BenchCapacitor {
  unknowns: Unknown[];
  known: { at: number; value: number; error: number }[];
  readings: {
    what: string;
    unit: 'V';
    path: readonly (string | number)[];
    measured: number;
    error: number;
  }[];
  /** Fills what the readings would be. */
  shownInto: (target: Float64Array, values: readonly number[]) => void;
  /** Voltage that a rest from a voltage would leave after some hours. */
  afterRest_V: (values: readonly number[], from_V: number, hours: number) => number;
}

const ROUNDING = 1 / Math.sqrt(12);
const NOTHING = 1e-9;
/** How far what a scenario assumes may be off, as a standard deviation. */
const LATITUDE = { hours: Math.LN2, fold: 0.3, rise: 0.08, ratedCapacitance: 0.1 };

interface Course extends Omit<BenchCourse, 'start_V'> {
  stated_V: number;
}

/**
 * The unknowns of a capacitor at the bench and what its readings would be, for a least-squares fit.
 *
 * in: section, the capacitor; bench, its readings
 * out: unknowns and readings; what the section switches off (a delayed share or a rise of 0) stays off
 * source: JCGM100 (stated errors with a coverage factor of 2, rounding as a rectangle)
 */
export function benchCapacitor(section: CapacitorSection, bench: CapacitorReadings): BenchCapacitor {
  const { rated_V } = section;
  const { discharge, rest } = bench;
  const half = (percent: number) => Math.max(percent / 100 / STATED_OVER_STANDARD, NOTHING);
  const step_V = (bench.voltage_step_mV / 1000) * ROUNDING;
  const guess_F = discharge[0] === undefined ? section.capacitance_F! : dischargeGuess_F(discharge[0]);
  const leakGuess_A = (section.leakage_uA ?? guess_F) * 1e-6;

  const courses: Course[] = discharge.map(({ resistor_ohm, held_h, points }) => ({
    stated_V: points[0]!.voltage_V,
    held_h,
    load_ohm: resistor_ohm,
    capacitor_degC: 25,
    times_s: points.slice(1).map(({ seconds }) => seconds - points[0]!.seconds),
  }));
  if (rest !== undefined) {
    courses.push({
      stated_V: rest.from_V,
      held_h: rest.held_h,
      load_ohm: Number.POSITIVE_INFINITY,
      capacitor_degC: rest.capacitor_degC,
      times_s: rest.after.map(({ hours }) => hours * 3600),
    });
  }

  const unknowns: Unknown[] = [
    { start: guess_F, scale: 0.1 * guess_F, least: 0.01 * guess_F },
    { start: section.delayed_share, scale: 0.05, least: 0 },
    { start: leakGuess_A, scale: Math.max(leakGuess_A, 2e-7 * guess_F) },
    {
      start: Math.log(section.delayed_hours),
      scale: LATITUDE.hours,
      least: Math.log(section.delayed_hours / 20),
    },
    { start: Math.log(section.leakage_e_fold_V), scale: LATITUDE.fold },
    { start: section.capacitance_rise, scale: LATITUDE.rise, least: 0 },
    { start: 0, scale: half(bench.voltage_error_percent) },
    { start: 0, scale: half(bench.resistor_error_percent) },
    ...courses.map(({ stated_V }) => ({ start: stated_V, scale: step_V })),
  ];
  const prior = (at: number, error = unknowns[at]!.scale) => ({ at, value: unknowns[at]!.start, error });
  const known = [
    prior(AT.hours),
    prior(AT.fold),
    prior(AT.rise, section.capacitance_rise === 0 ? NOTHING : LATITUDE.rise),
    prior(AT.voltmeter),
    prior(AT.resistor),
    ...courses.map((_, k) => prior(AT.starts + k)),
  ];
  if (discharge.length === 0) known.push(prior(AT.capacitance, LATITUDE.ratedCapacitance * guess_F));
  if (section.delayed_share === 0 || rest === undefined)
    known.push(prior(AT.share, section.delayed_share * 0.4 + NOTHING));
  if (rest === undefined) known.push(prior(AT.leakage, leakGuess_A * 0.5 + NOTHING));

  const capacitorAt = (values: readonly number[]): CapacitorParams => {
    const capacitance_F = values[AT.capacitance]!;
    const atZero_F = capacitance_F / (1 + 0.6 * values[AT.rise]!);
    const exponential = section.leakage_law === 'exponential';
    return {
      capacitance_F: atZero_F,
      rise_F_V: (atZero_F * values[AT.rise]!) / rated_V,
      series_ohm: section.esr_mohm / 1000,
      delayed: delayedBranches(capacitance_F, Math.max(0, values[AT.share]!), Math.exp(values[AT.hours]!)),
      leakage_A: values[AT.leakage]!,
      leakageEFold_V: exponential ? Math.exp(values[AT.fold]!) : Number.POSITIVE_INFINITY,
      leakageDoubling_K: section.leakage_doubling_K,
      rated_V,
      balancing_S: 0,
      limiter_V: Number.POSITIVE_INFINITY,
      limiter_ohm: 1,
    };
  };
  const voltages = (values: readonly number[], course: Course, k: number): number[] => {
    const gain = 1 + values[AT.voltmeter]!;
    return benchVoltages(capacitorAt(values), {
      ...course,
      start_V: values[AT.starts + k]! / gain,
      load_ohm: course.load_ohm * (1 + values[AT.resistor]!),
    }).map((volts) => volts * gain);
  };

  const readings: BenchCapacitor['readings'] = [
    ...discharge.flatMap(({ points, resistor_ohm }, k) =>
      points.slice(1).map(({ seconds, voltage_V }, i) => ({
        what: `discharge ${k + 1}, after ${seconds - points[0]!.seconds} s`,
        unit: 'V' as const,
        path: ['readings', 'discharge', k, 'points', i + 1, 'voltage_V'],
        measured: voltage_V,
        error: Math.hypot(
          step_V,
          ((voltage_V / (resistor_ohm * guess_F)) * bench.time_error_s * Math.SQRT2) / STATED_OVER_STANDARD,
        ),
      })),
    ),
    ...(rest?.after ?? []).map(({ hours, voltage_V }, i) => ({
      what: `after ${hours} h at rest`,
      unit: 'V' as const,
      path: ['readings', 'rest', 'after', i, 'voltage_V'],
      measured: voltage_V,
      error: step_V,
    })),
  ];
  return {
    unknowns,
    known,
    readings,
    shownInto: (target, values) => {
      let i = 0;
      courses.forEach((course, k) => {
        for (const volts of voltages(values, course, k)) target[i++] = volts;
      });
    },
    afterRest_V: (values, from_V, hours) =>
      benchVoltages(capacitorAt(values), {
        start_V: from_V,
        held_h: rest?.held_h ?? 0.5,
        load_ohm: Number.POSITIVE_INFINITY,
        capacitor_degC: 25,
        times_s: [hours * 3600],
      })[0]!,
  };
}

function dischargeGuess_F({ points, resistor_ohm }: CapacitorReadings['discharge'][number]): number {
  const [first, last] = [points[0]!, points.at(-1)!];
  return (last.seconds - first.seconds) / (resistor_ohm * Math.log(first.voltage_V / last.voltage_V));
}
