import { type Estimate, type PartFit, rounded } from '../../common/Estimate.ts';
import { exp } from '../../common/elementary/exp.ts';
import {
  boundsOf,
  fitReadings,
  fittedReadings,
  heldAboveZero,
  type ReadingsFit,
  reducedChiSquare,
} from '../../common/fitReadings.ts';
import type { Report } from '../../common/InputProblem.ts';
import { AT, type BenchCapacitor, benchCapacitor } from './benchCapacitor.ts';
import { capacitorReadingProblems } from './capacitorReadingProblems.ts';
import { absorbedCurrent_A, delayedBranches } from './delayedCharge.ts';
import type { CapacitorReadings, CapacitorSection } from './schema.ts';

/** Keys as the datasheet has them. */
export type CapacitorKeys = Pick<
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
  const problems = capacitorReadingProblems(section, readings);
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
  const leakage_e_fold_V = exp(values[AT.eFold]!);
  if (section.delayed_share === 0) return { capacitance_F, leakage_uA, leakage_e_fold_V };
  const [delayed_share, delayed_hours] = [values[AT.delayedShare]!, exp(values[AT.hours]!)];
  return { capacitance_F, leakage_uA, delayed_share, delayed_hours, leakage_e_fold_V };
}

/** What delayed charge still takes after the rest of a datasheet's leakage. */
function absorbed_A(section: CapacitorSection, values: readonly number[]): number {
  const hours = exp(values[AT.hours]!);
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
