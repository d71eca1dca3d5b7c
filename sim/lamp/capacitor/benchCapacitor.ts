import type { Bench, Prior, Reading } from '../../common/Bench.ts';
import { NO_ERROR, ROUNDING, STATED_OVER_STANDARD, standardShare } from '../../common/Estimate.ts';
import { exp } from '../../common/elementary/exp.ts';
import { hypot } from '../../common/elementary/hypot.ts';
import { log } from '../../common/elementary/log.ts';
import type { Unknown } from '../../common/leastValues.ts';
import { type CapacitorParams, onePart } from './params.ts';
import type { CapacitorReadings, CapacitorSection } from './schema.ts';
import { type BenchCourse, benchVoltages } from './step.ts';

/** Places of the unknowns; hours and e-fold as logarithms; then the start voltage of each course. */
export const AT = {
  capacitance: 0,
  delayedShare: 1,
  leakage: 2,
  hours: 3,
  eFold: 4,
  rise: 5,
  voltmeter: 6,
  resistor: 7,
  starts: 8,
} as const;

/** A capacitor at the bench. */
export interface BenchCapacitor extends Bench {
  /** Voltage that a rest from a voltage would leave after some hours. */
  afterRest_V: (values: readonly number[], from_V: number, hours: number) => number;
}

/** How far a fit may go looking: some times what it begins with, or some shares of a meter's reading. */
const FARTHEST = { capacitance: 100, hours: 20, eFold: 20, leakage: 1e4, meter: 0.5 };
/** Most charge that is delayed, as a share of the rated capacitance. */
const MOST_DELAYED = 3;
const MOST_RISE = 5;

/** How far what a scenario assumes may be off, as a standard deviation. */
const LATITUDE = { hours: Math.LN2, eFold: 0.3, rise: 0.08, ratedCapacitance: 0.1 };

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
  const { discharge, rest } = bench;
  const guess_F = discharge[0] === undefined ? section.capacitance_F! : capacitanceOf_F(discharge[0]);
  const courses = coursesOf(bench);
  const unknowns = unknownsOf(section, bench, guess_F, courses);
  return {
    unknowns,
    priors: priorsOf(section, bench, unknowns),
    readings: readingsOf(bench, guess_F),
    shownInto: (target, values) => {
      const gain = 1 + values[AT.voltmeter]!;
      let i = 0;
      courses.forEach((course, k) => {
        const shown = benchVoltages(capacitorAt(section, values), {
          ...course,
          start_V: values[AT.starts + k]! / gain,
          load_ohm: course.load_ohm * (1 + values[AT.resistor]!),
        });
        for (const volts of shown) target[i++] = volts * gain;
      });
    },
    afterRest_V: (values, from_V, hours) =>
      benchVoltages(capacitorAt(section, values), {
        start_V: from_V,
        held_h: rest?.held_h ?? 0.5,
        load_ohm: Number.POSITIVE_INFINITY,
        capacitor_degC: 25,
        times_s: [hours * 3600],
      })[0]!,
  };
}

/** Capacitance that the first and last point of a discharge make, farads. */
export function capacitanceOf_F({ points, resistor_ohm }: CapacitorReadings['discharge'][number]): number {
  const [first, last] = [points[0]!, points.at(-1)!];
  return (last.seconds - first.seconds) / (resistor_ohm * log(first.voltage_V / last.voltage_V));
}

function coursesOf({ discharge, rest }: CapacitorReadings): Course[] {
  const courses: Course[] = discharge.map(({ resistor_ohm, held_h, points }) => ({
    stated_V: points[0]!.voltage_V,
    held_h,
    load_ohm: resistor_ohm,
    capacitor_degC: 25,
    times_s: points.slice(1).map(({ seconds }) => seconds - points[0]!.seconds),
  }));
  if (rest === undefined) return courses;
  return [
    ...courses,
    {
      stated_V: rest.from_V,
      held_h: rest.held_h,
      load_ohm: Number.POSITIVE_INFINITY,
      capacitor_degC: rest.capacitor_degC,
      times_s: rest.after.map(({ hours }) => hours * 3600),
    },
  ];
}

function unknownsOf(
  section: CapacitorSection,
  bench: CapacitorReadings,
  guess_F: number,
  courses: readonly Course[],
): Unknown[] {
  const leakGuess_A = (section.leakage_uA ?? guess_F) * 1e-6;
  const logHours = log(section.delayed_hours);
  const leakScale_A = Math.max(leakGuess_A, 2e-7 * guess_F);
  const meter = { start: 0, least: -FARTHEST.meter, most: FARTHEST.meter };
  const about = (start: number, times: number) => ({
    start,
    least: start - log(times),
    most: start + log(times),
  });
  return [
    {
      start: guess_F,
      scale: 0.1 * guess_F,
      least: guess_F / FARTHEST.capacitance,
      most: guess_F * FARTHEST.capacitance,
    },
    { start: section.delayed_share, scale: 0.05, least: 0, most: MOST_DELAYED },
    {
      start: leakGuess_A,
      scale: leakScale_A,
      least: -FARTHEST.leakage * leakScale_A,
      most: FARTHEST.leakage * leakScale_A,
    },
    { ...about(logHours, FARTHEST.hours), scale: LATITUDE.hours },
    { ...about(log(section.leakage_e_fold_V), FARTHEST.eFold), scale: LATITUDE.eFold },
    { start: section.capacitance_rise, scale: LATITUDE.rise, least: 0, most: MOST_RISE },
    { ...meter, scale: standardShare(bench.voltage_error_percent) },
    { ...meter, scale: standardShare(bench.resistor_error_percent) },
    ...courses.map(({ stated_V }) => ({
      start: stated_V,
      scale: lastDigit_V(bench),
      least: (1 - FARTHEST.meter) * stated_V,
      most: (1 + FARTHEST.meter) * stated_V,
    })),
  ];
}

function priorsOf(
  section: CapacitorSection,
  { discharge, rest }: CapacitorReadings,
  unknowns: readonly Unknown[],
): Prior[] {
  const prior = (at: number, error = unknowns[at]!.scale) => ({ at, value: unknowns[at]!.start, error });
  const priors = [
    prior(AT.hours),
    prior(AT.eFold),
    prior(AT.rise, section.capacitance_rise === 0 ? NO_ERROR : LATITUDE.rise),
    prior(AT.voltmeter),
    prior(AT.resistor),
    ...unknowns.slice(AT.starts).map((_, k) => prior(AT.starts + k)),
  ];
  if (discharge.length === 0) {
    priors.push(prior(AT.capacitance, LATITUDE.ratedCapacitance * unknowns[AT.capacitance]!.start));
  }
  if (section.delayed_share === 0 || rest === undefined) {
    priors.push(prior(AT.delayedShare, section.delayed_share * 0.4 + NO_ERROR));
  }
  if (rest === undefined) priors.push(prior(AT.leakage, unknowns[AT.leakage]!.start * 0.5 + NO_ERROR));
  return priors;
}

function lastDigit_V({ voltage_step_mV }: CapacitorReadings): number {
  return (voltage_step_mV / 1000) * ROUNDING;
}

function readingsOf(bench: CapacitorReadings, guess_F: number): Reading[] {
  const step_V = lastDigit_V(bench);
  const time_s = (bench.time_error_s * Math.SQRT2) / STATED_OVER_STANDARD;
  return [
    ...bench.discharge.flatMap(({ points, resistor_ohm }, k) =>
      points.slice(1).map(({ seconds, voltage_V }, i) => ({
        what: `discharge ${k + 1}, after ${seconds - points[0]!.seconds} s`,
        unit: 'V',
        path: ['readings', 'discharge', k, 'points', i + 1, 'voltage_V'],
        measured: voltage_V,
        error: hypot(step_V, (voltage_V / (resistor_ohm * guess_F)) * time_s),
      })),
    ),
    ...(bench.rest?.after ?? []).map(({ hours, voltage_V }, i) => ({
      what: `after ${hours} h at rest`,
      unit: 'V',
      path: ['readings', 'rest', 'after', i, 'voltage_V'],
      measured: voltage_V,
      error: step_V,
    })),
  ];
}

function capacitorAt(section: CapacitorSection, values: readonly number[]): CapacitorParams {
  const one = onePart(
    {
      ...section,
      capacitance_F: values[AT.capacitance]!,
      capacitance_rise: values[AT.rise]!,
      delayed_share: Math.max(0, values[AT.delayedShare]!),
      delayed_hours: exp(values[AT.hours]!),
      leakage_e_fold_V: exp(values[AT.eFold]!),
    },
    values[AT.leakage]!,
  );
  const { rated_V } = section;
  return {
    ...one,
    rated_V,
    lowest_V: 0,
    lowest_degC: section.lowest_degC,
    balancing_S: 0,
    limiter_V: Number.POSITIVE_INFINITY,
    limiter_ohm: 1,
  };
}
