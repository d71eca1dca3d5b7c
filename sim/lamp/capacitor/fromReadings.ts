import { type Estimate, type PartFit, STANDARD_ERRORS_90 } from '../../common/Estimate.ts';
import type { Report } from '../../common/InputProblem.ts';
import { type LeastSquaresFit, leastSquares } from '../../common/leastSquares.ts';
import { reducedChiSquare } from '../../common/reducedChiSquare.ts';
import { truncatedNormalMean } from '../../common/truncatedNormalMean.ts';
import { AT, type BenchCapacitor, benchCapacitor } from './benchCapacitor.ts';
import { checkReadings } from './checkReadings.ts';
import { absorbedCurrent_A, delayedBranches } from './delayedBranches.ts';
import type { CapacitorReadings, CapacitorSection } from './schema.ts';

/** A capacitor found from readings: keys as the datasheet has them. */
export interface CapacitorFit extends PartFit {
  keys: Pick<
    CapacitorSection,
    'capacitance_F' | 'leakage_uA' | 'delayed_share' | 'delayed_hours' | 'leakage_e_fold_V'
  >;
  bench: BenchCapacitor;
  solved: LeastSquaresFit;
}

/**
 * One capacitor from its readings at the bench, with 90 percent intervals: rated capacitance, delayed share and leakage;
 * what no reading is about stays as the section has it.
 *
 * in: section, the capacitor; readings; report, takes readings that no capacitor can show or that do not settle it
 * out: the capacitor, or undefined after a problem
 * valid: time constant of the delayed charge, rise of the capacitance and fold of the leakage are taken from the section,
 *   each with the latitude of an assumption, which is in the intervals
 * source: JCGM100 (intervals from the slopes)
 */
export function fromReadings(
  section: CapacitorSection,
  readings: CapacitorReadings,
  report: Report,
): CapacitorFit | undefined {
  if (!checkReadings(section, readings, report)) return undefined;
  const { discharge, rest } = readings;
  const open: { what: string; fix: string }[] = [];
  if (discharge.length === 0 && section.capacitance_F === undefined) {
    open.push({
      what: 'capacitance',
      fix: 'time a discharge through a resistor, from 0.8 to 0.4 of the rated voltage, or add capacitance_F',
    });
  }
  if (rest === undefined && section.leakage_uA === undefined) {
    open.push({
      what: 'leakage',
      fix: 'read the voltage after an hour, a day and three days at rest, or add leakage_uA',
    });
  }
  for (const { what, fix } of open) {
    report({
      code: 'FIT_UNDETERMINED',
      path: ['readings'],
      got: `readings that leave the ${what} open`,
      expected: 'readings that settle it, or its datasheet value beside them',
      fix,
    });
  }
  if (open.length > 0) return undefined;

  const bench = benchCapacitor(section, readings);
  const notes: string[] = [];
  let { known } = bench;
  let solved = solve(bench, known);
  if (rest !== undefined && section.delayed_share > 0 && solved.errors[AT.share]! > 0.1) {
    known = [...known, { at: AT.share, value: section.delayed_share, error: 0.04 }];
    notes.push(
      `the delayed share stays near the ${section.delayed_share} of the scenario; to settle it, read the voltage after an hour as well as after three days at rest`,
    );
    solved = solve(bench, known);
  }
  const scatter = reducedChiSquare(solved, bench.readings, report, 'capacitor');
  if (scatter === undefined) return undefined;
  notes.push(...scatter.notes);
  const half = STANDARD_ERRORS_90 * scatter.factor;

  const leak_uA = solved.values[AT.leakage]! * 1e6;
  const error_uA = solved.errors[AT.leakage]! * 1e6;
  let { values } = solved;
  if (rest !== undefined && leak_uA <= half * error_uA) {
    const mean_A = truncatedNormalMean(leak_uA, error_uA * scatter.factor) * 1e-6;
    values = solve(bench, [...known, { at: AT.leakage, value: mean_A, error: error_uA * 1e-10 }]).values;
    notes.push(
      'the leakage is too small for these rests: they give an upper bound, and the mean of what it leaves is used; a week at rest would say more',
    );
  }
  const share = Math.max(0, values[AT.share]!);
  const hours = Math.exp(values[AT.hours]!);
  const capacitance_F = values[AT.capacitance]!;
  const absorbed_uA =
    absorbedCurrent_A(delayedBranches(capacitance_F, share, hours), section.rated_V, section.leakage_rest_h) *
    1e6;
  const net_uA = Math.max(0, values[AT.leakage]! * 1e6);
  const estimates: Estimate[] = [];
  const bounds = (value: number, at: number, factor = 1) => ({
    value,
    low: Math.max(0, (solved.values[at]! - half * solved.errors[at]!) * factor),
    high: (solved.values[at]! + half * solved.errors[at]!) * factor,
  });
  if (discharge.length > 0) {
    estimates.push({
      key: 'capacitance_F',
      what: 'capacitance, mean from 0.8 to 0.4 of the rated voltage',
      unit: 'F',
      ...bounds(capacitance_F, AT.capacitance),
      ...(section.capacitance_F === undefined ? {} : { datasheet: section.capacitance_F }),
    });
  }
  if (rest !== undefined) {
    const net = bounds(net_uA, AT.leakage, 1e6);
    estimates.push(
      {
        key: 'leakage_uA',
        what: `leakage at ${section.rated_V} V and 25 degC, after ${section.leakage_rest_h} h`,
        unit: 'uA',
        value: net.value + absorbed_uA,
        low: net.low === 0 ? 0 : net.low + absorbed_uA,
        high: net.high + absorbed_uA,
        ...(section.leakage_uA === undefined ? {} : { datasheet: section.leakage_uA }),
      },
      ...(section.delayed_share === 0
        ? []
        : [
            {
              key: 'delayed_share',
              what: 'delayed share of the charge',
              unit: '',
              ...bounds(share, AT.share),
              datasheet: section.delayed_share,
            },
          ]),
    );
  }
  return {
    bench,
    solved,
    estimates,
    readings: bench.readings.map(({ what, unit, measured, error }, i) => ({
      what,
      unit,
      measured,
      error,
      fitted: measured + solved.residuals[i]! * error,
    })),
    notes,
    keys: {
      capacitance_F: digits(capacitance_F),
      ...(rest === undefined ? {} : { leakage_uA: digits(net_uA + absorbed_uA * 1.0001) }),
      ...(rest === undefined || section.delayed_share === 0
        ? { delayed_share: section.delayed_share, delayed_hours: section.delayed_hours }
        : { delayed_share: digits(share), delayed_hours: digits(hours) }),
      leakage_e_fold_V: rest === undefined ? section.leakage_e_fold_V : digits(Math.exp(values[AT.fold]!)),
    },
  };
}

function solve(bench: BenchCapacitor, known: BenchCapacitor['known']): LeastSquaresFit {
  const { unknowns, readings } = bench;
  return leastSquares(unknowns, readings.length + known.length, (target, values) => {
    bench.shownInto(target, values);
    readings.forEach(({ measured, error }, i) => {
      target[i] = (target[i]! - measured) / error;
    });
    known.forEach(({ at, value, error }, i) => {
      target[readings.length + i] = (values[at]! - value) / error;
    });
  });
}

function digits(value: number): number {
  return Number(value.toPrecision(6));
}
