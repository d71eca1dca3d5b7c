import { type Estimate, type PartFit, rounded } from '../../common/Estimate.ts';
import {
  boundsOf,
  fitReadings,
  fittedReadings,
  heldAboveZero,
  type ReadingsFit,
  reducedChiSquare,
} from '../../common/fitReadings.ts';
import { unitSlip } from '../../common/hints.ts';
import type { Report, ValueProblem } from '../../common/InputProblem.ts';
import { AT, type BenchCapacitor, benchCapacitor, capacitanceOf_F } from './benchCapacitor.ts';
import { absorbedCurrent_A, delayedBranches } from './params.ts';
import type { CapacitorReadings, CapacitorSection } from './schema.ts';

/** Keys as the datasheet has them. */
type CapacitorKeys = Pick<
  CapacitorSection,
  'capacitance_F' | 'leakage_uA' | 'delayed_share' | 'delayed_hours' | 'leakage_e_fold_V'
>;

/** A capacitor found from readings. */
export interface CapacitorFit extends PartFit {
  keys: CapacitorKeys;
  bench: BenchCapacitor;
  solved: ReadingsFit;
  /** How much more the readings scatter than their errors allow. */
  scatter: number;
}

/**
 * One capacitor from its readings at the bench, with 90 percent intervals: rated capacitance, delayed share and leakage;
 * what no reading is about stays as the section has it.
 *
 * in: section, the capacitor; readings; report, takes readings that no capacitor can show or that do not settle it
 * out: the capacitor, or undefined after a problem
 * valid: time constant of the delayed charge, rise of the capacitance and e-fold of the leakage are taken from the
 *   section, each with the latitude of an assumption, which is in the intervals
 * source: JCGM100 (intervals from the slopes)
 */
export function capacitorFromReadings(
  section: CapacitorSection,
  readings: CapacitorReadings,
  report: Report,
): CapacitorFit | undefined {
  const impossible = readingProblems(section, readings);
  const problems = impossible.length > 0 ? impossible : [...openProblems(section, readings)];
  problems.forEach(report);
  if (problems.length > 0) return undefined;
  const rested = readings.rest !== undefined;
  const bench = benchCapacitor(section, readings);
  const notes: string[] = [];
  let solved = fitReadings(bench);
  if (rested && section.delayed_share > 0 && solved.errors[AT.delayedShare]! > 0.1) {
    const near = { at: AT.delayedShare, value: section.delayed_share, error: 0.04 };
    solved = fitReadings({ ...bench, priors: [...bench.priors, near] });
    notes.push(
      `the delayed share stays near the ${section.delayed_share} of the scenario; to settle it, read the voltage after an hour as well as after three days at rest`,
    );
  }
  const scatter = reducedChiSquare(solved, report, 'capacitor');
  if (scatter === undefined) return undefined;
  notes.push(...scatter.notes);
  const held = rested ? heldAboveZero(solved, AT.leakage, scatter.factor) : undefined;
  if (held !== undefined) {
    notes.push(
      'the leakage is too small for these rests: they give an upper bound, and the mean of what it leaves is used; a week at rest would say more',
    );
  }
  const values = (held ?? solved).values.map((value, at) =>
    at === AT.leakage || at === AT.delayedShare ? Math.max(0, value) : value,
  );
  const { delayed_share, delayed_hours, leakage_e_fold_V } = section;
  return {
    bench,
    solved,
    scatter: scatter.factor,
    estimates: estimatesOf(section, readings, solved, { values, factor: scatter.factor }),
    readings: fittedReadings(solved),
    notes,
    keys: rounded({
      delayed_share,
      delayed_hours,
      leakage_e_fold_V,
      ...keysSettled(section, rested, values),
    }),
  };
}

/**
 * The keys that readings settle, for given unknowns, not rounded.
 *
 * in: section; rested, whether a rest was read: without one only the capacitance; values, of the unknowns
 */
export function keysSettled(section: CapacitorSection, rested: boolean, values: readonly number[]) {
  const capacitance_F = values[AT.capacitance]!;
  if (!rested) return { capacitance_F };
  // A little more than what delayed charge takes after that rest: rounded, it must not come out as less.
  const leakage_uA = (values[AT.leakage]! + absorbed_A(section, values) * 1.0001) * 1e6;
  const leakage_e_fold_V = Math.exp(values[AT.eFold]!);
  if (section.delayed_share === 0) return { capacitance_F, leakage_uA, leakage_e_fold_V };
  const [delayed_share, delayed_hours] = [values[AT.delayedShare]!, Math.exp(values[AT.hours]!)];
  return { capacitance_F, leakage_uA, delayed_share, delayed_hours, leakage_e_fold_V };
}

/** What delayed charge still takes after the rest of a datasheet's leakage. */
function absorbed_A(section: CapacitorSection, values: readonly number[]): number {
  const hours = Math.exp(values[AT.hours]!);
  const branches = delayedBranches(values[AT.capacitance]!, values[AT.delayedShare]!, hours);
  return absorbedCurrent_A(branches, section.rated_V, section.leakage_rest_h);
}

/** Intervals about the nearest capacitor, with the values of the capacitor that is used. */
function estimatesOf(
  section: CapacitorSection,
  { discharge, rest }: CapacitorReadings,
  solved: ReadingsFit,
  { values, factor }: { values: readonly number[]; factor: number },
): Estimate[] {
  const estimates: Estimate[] = [];
  if (discharge.length > 0) {
    estimates.push({
      key: 'capacitance_F',
      what: 'capacitance, mean from 0.8 to 0.4 of the rated voltage',
      unit: 'F',
      ...boundsOf(solved, AT.capacitance, factor),
      value: values[AT.capacitance]!,
      datasheet: section.capacitance_F,
    });
  }
  if (rest === undefined) return estimates;
  const { low, high } = boundsOf(solved, AT.leakage, factor);
  const more_A = absorbed_A(section, values);
  estimates.push({
    key: 'leakage_uA',
    what: `leakage at ${section.rated_V} V and 25 degC, after ${section.leakage_rest_h} h`,
    unit: 'uA',
    value: (values[AT.leakage]! + more_A) * 1e6,
    low: low === 0 ? 0 : (low + more_A) * 1e6,
    high: (high + more_A) * 1e6,
    datasheet: section.leakage_uA,
  });
  if (section.delayed_share > 0) {
    estimates.push({
      key: 'delayed_share',
      what: 'delayed share of the charge',
      unit: '',
      ...boundsOf(solved, AT.delayedShare, factor),
      value: values[AT.delayedShare]!,
      datasheet: section.delayed_share,
    });
  }
  return estimates;
}

/** What neither readings nor datasheet values beside them settle. */
function* openProblems(
  section: CapacitorSection,
  { discharge, rest }: CapacitorReadings,
): Generator<ValueProblem> {
  const open = (what: string, fix: string): ValueProblem => ({
    code: 'FIT_UNDETERMINED',
    path: ['readings'],
    got: `readings that leave the ${what} open`,
    expected: 'readings that settle it, or its datasheet value beside them',
    fix,
  });
  if (discharge.length === 0 && section.capacitance_F === undefined) {
    yield open(
      'capacitance',
      'time a discharge through a resistor, from 0.8 to 0.4 of the rated voltage, or add capacitance_F',
    );
  }
  if (rest === undefined && section.leakage_uA === undefined) {
    yield open('leakage', 'read the voltage after an hour, a day and three days at rest, or add leakage_uA');
  }
}

/**
 * Why readings cannot be of one capacitor at all: voltages that do not fall ever more slowly, times and resistors in
 * another unit than they claim.
 */
function readingProblems(section: CapacitorSection, readings: CapacitorReadings): ValueProblem[] {
  const { discharge, rest, voltage_step_mV } = readings;
  const problems = discharge.flatMap((course, k) => {
    const points = course.points.map(({ seconds, voltage_V }) => ({ time: seconds, voltage_V }));
    const path = ['readings', 'discharge', k, 'points'];
    const names = { path, first: 0, unit: 's', key: 'seconds' };
    const problem =
      courseProblem(points, names, { again_V: 0, slack_V: (1.5 * voltage_step_mV) / 1000 }) ??
      unitProblem(section, course, k);
    return problem === undefined ? [] : [problem];
  });
  if (rest === undefined) return problems;
  const points = rest.after.map(({ hours, voltage_V }) => ({ time: hours, voltage_V }));
  const names = { path: ['readings', 'rest', 'after'], first: -1, unit: 'h', key: 'hours' };
  const most_V = (3 * voltage_step_mV) / 1000;
  const problem = courseProblem([{ time: 0, voltage_V: rest.from_V }, ...points], names, {
    again_V: most_V,
    slack_V: most_V,
  });
  return problem === undefined ? problems : [...problems, problem];
}

function unitProblem(
  { capacitance_F: stated_F }: CapacitorSection,
  course: CapacitorReadings['discharge'][number],
  k: number,
): ValueProblem | undefined {
  const fitted_F = capacitanceOf_F(course);
  const slip = unitSlip(fitted_F, stated_F ?? Number.NaN);
  if (slip === undefined) return undefined;
  const { points, resistor_ohm } = course;
  return {
    code: 'SCENARIO_WRONG_UNIT',
    path: ['readings', 'discharge', k, 'resistor_ohm'],
    got: `${resistor_ohm} ohm and ${points.at(-1)!.seconds - points[0]!.seconds} s, which make ${fitted_F.toPrecision(2)} F`,
    expected: `about ${stated_F} F, by the datasheet`,
    fix:
      slip === 1000
        ? 'resistor_ohm is in ohm (1 kohm is 1000), seconds in s; milliseconds or a resistor of kilohms look like this'
        : 'resistor_ohm is in ohm: a resistor of so many kilohms is a thousand times that; or write capacitance_F in F',
  };
}

/** A discharge may quicken by that much: capacitance falls with the voltage. */
const QUICKENS = 2;

/**
 * What keeps points from being voltages that fall with time, ever more slowly. A voltage may come again (again_V above
 * the one before) in a rest alone; slack_V, how far a difference of voltages may be off.
 */
function courseProblem(
  points: readonly { time: number; voltage_V: number }[],
  { path, first, unit, key }: { path: (string | number)[]; first: number; unit: string; key: string },
  { again_V, slack_V }: { again_V: number; slack_V: number },
): ValueProblem | undefined {
  const conflict = (i: number, at: string, words: Omit<ValueProblem, 'code' | 'path'>): ValueProblem => ({
    code: 'SCENARIO_CONFLICT',
    path: [...path, first + i, at],
    ...words,
  });
  let slowest = Number.POSITIVE_INFINITY;
  for (let i = 1; i < points.length; i++) {
    const [before, now] = [points[i - 1]!, points[i]!];
    const gap = now.time - before.time;
    if (gap <= 0) {
      return conflict(i, key, {
        got: `${now.time} ${unit} after ${before.time} ${unit}`,
        expected: 'rising times',
        fix: 'sort the points by time',
      });
    }
    if (now.voltage_V >= before.voltage_V + again_V) {
      return conflict(i, 'voltage_V', {
        got: `${now.voltage_V} V after ${before.voltage_V} V`,
        expected: 'a voltage that falls: nothing charges it',
        fix: 'were two readings exchanged? Read them again',
      });
    }
    const rate = Math.log(before.voltage_V / now.voltage_V) / gap;
    const slack = (2 * slack_V) / now.voltage_V / gap;
    if (rate - slack > QUICKENS * slowest) {
      return conflict(i, 'voltage_V', {
        got: `${before.voltage_V} to ${now.voltage_V} V in ${gap} ${unit}, ${(rate / slowest).toFixed(1)} times as fast as before`,
        expected: 'a voltage that falls ever more slowly',
        fix: 'something else drew from it, or a reading slipped; read them again',
      });
    }
    slowest = Math.min(slowest, rate + slack);
  }
  return undefined;
}
