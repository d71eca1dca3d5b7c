import type { Prior } from '../../common/Bench.ts';
import { type Estimate, type PartFit, rounded, STANDARD_ERRORS_90 } from '../../common/Estimate.ts';
import { exp } from '../../common/elementary/exp.ts';
import { log } from '../../common/elementary/log.ts';
import {
  boundsOf,
  fitReadings,
  fittedReadings,
  heldAboveZero,
  type ReadingsFit,
  reducedChiSquare,
} from '../../common/fitReadings.ts';
import type { Report, ValueProblem } from '../../common/InputProblem.ts';
import { covarianceAlong, slopesOf } from '../../common/leastSquares.ts';
import { AT, type BenchCell, benchCell } from './benchCell.ts';
import { cellReadingProblems } from './cellReadingProblems.ts';
import { fromDatasheet } from './fromDatasheet.ts';
import { SILICON, type SingleDiode } from './SingleDiode.ts';
import type { CellReadings, CellSection } from './schema.ts';

/** A cell found from readings. */
export interface CellFit extends PartFit {
  keys: { raw: SingleDiode };
  cell: SingleDiode;
  bench: BenchCell;
  solved: ReadingsFit;
  /** How much more the readings scatter than their errors allow. */
  scatter: number;
}

/**
 * One cell from its readings at the bench, with 90 percent intervals; what they do not settle is taken from the
 * datasheet values beside them.
 *
 * in: section, the cell; readings; report, takes readings that no cell can show or that do not settle it
 * out: the cell at 1000 W/m2 and 25 degC, or undefined after a problem
 * valid: a shunt that the readings do not settle is given as a lower bound (95 percent), and the cell then carries
 *   the mean of what they leave possible
 * source: JCGM100 (intervals from the slopes)
 */
export function cellFromReadings(
  section: CellSection,
  readings: CellReadings,
  report: Report,
): CellFit | undefined {
  const problems = cellReadingProblems(section, readings);
  problems.forEach(report);
  if (problems.length > 0) return undefined;
  const bench = benchCell(section, readings);
  const stated = statedCell(section);
  const notes: string[] = [];
  let solved = fitReadings(bench);
  const open = unsettledOf(solved);
  if (open.length > 0 && stated === undefined) {
    for (const { what, measure } of open) report(undetermined(what, measure));
    return undefined;
  }
  if (open.length > 0) {
    solved = fitReadings({
      ...bench,
      unknowns: bench.unknowns.with(AT.shunt_S, {
        ...bench.unknowns[AT.shunt_S]!,
        least: stated!.photocurrent_A / SILICON.bestShunt_V,
      }),
      priors: [...bench.priors, ...open.map(({ at }) => fromStated(at, stated!))],
    });
    notes.push(
      `${open.map(({ what }) => what).join(', ')}: the readings alone leave it open, and the datasheet decides with them; to settle it, ${open.map(({ measure }) => measure).join('; ')}`,
    );
  }
  const scatter = reducedChiSquare(solved, report, 'cell');
  if (scatter === undefined) return undefined;
  notes.push(...scatter.notes);
  // Where the datasheet's shunt counts too, what lies nearest to both is no bound.
  const byReadings = open.every(({ at }) => at !== AT.shunt_S);
  const held = byReadings ? heldAboveZero(solved, AT.shunt_S, scatter.factor) : undefined;
  if (held !== undefined) {
    notes.push(
      'the shunt is too good for these readings: they give a lower bound, and the mean of what it leaves is used',
    );
  }
  const { values } = held ?? solved;
  const cell = bench.cellAt(values);
  if (!(cell.saturation_A > 0 && cell.shunt_ohm > 0 && Number.isFinite(cell.shunt_ohm))) {
    report(impossible(cell, values[AT.open_V]!));
    return undefined;
  }
  return {
    cell,
    bench,
    solved,
    scatter: scatter.factor,
    estimates: estimatesOf(bench, solved, scatter.factor, { cell, stated }),
    readings: fittedReadings(solved),
    notes,
    keys: { raw: rounded({ ...cell }) },
  };
}

function undetermined(what: string, measure: string): ValueProblem {
  return {
    code: 'FIT_UNDETERMINED',
    path: ['readings', 'lights'],
    got: `readings that leave the ${what} open`,
    expected:
      'readings that settle photocurrent, ideality, series and shunt resistance, or datasheet values beside them',
    fix: measure,
  };
}

function impossible({ shunt_ohm }: SingleDiode, open_V: number): ValueProblem {
  return {
    code: 'SCENARIO_CONFLICT',
    path: ['readings', 'lights'],
    got: `readings of which the nearest cell has a shunt of ${shunt_ohm.toPrecision(3)} ohm and cannot reach its own ${open_V.toFixed(2)} V`,
    expected: 'readings that one cell can show',
    fix: 'read open circuit and short circuit again, in the same light and at the temperature that is stated',
  };
}

/** The unknowns that readings leave open, and what would settle them. */
function unsettledOf({ values, errors, bench: { unknowns } }: ReadingsFit) {
  const full_A = exp(values[AT.lights]!);
  return [
    {
      at: AT.ideality,
      what: 'ideality',
      open: errors[AT.ideality]! > 0.4,
      measure:
        'read short circuit and open circuit in a light of about a tenth, and of a hundredth, of full sun',
    },
    {
      at: AT.series_ohm,
      what: 'series resistance',
      open: errors[AT.series_ohm]! > 3 * unknowns[AT.series_ohm]!.scale,
      measure: `read a loaded point in full sun, at about ${(0.8 * values[AT.open_V]!).toFixed(1)} V`,
    },
    {
      at: AT.shunt_S,
      what: 'shunt resistance',
      open: values[AT.shunt_S]! + STANDARD_ERRORS_90 * errors[AT.shunt_S]! > full_A / 5,
      measure:
        'read short circuit and open circuit in a light of a hundredth of full sun (a window on a dull day)',
    },
  ].filter(({ open }) => open);
}

function statedCell(section: CellSection): SingleDiode | undefined {
  const { short_circuit_mA, open_circuit_V, best_current_mA, best_voltage_V } = section;
  const whole = ![short_circuit_mA, open_circuit_V, best_current_mA, best_voltage_V].includes(undefined);
  return whole ? fromDatasheet(section, () => {}) : undefined;
}

/** What the datasheet says of an unknown, and how surely. */
function fromStated(at: number, stated: SingleDiode): Prior {
  if (at === AT.ideality) return { at, value: stated.ideality, error: SILICON.idealityError };
  if (at === AT.series_ohm) return { at, value: stated.series_ohm, error: 0.5 * stated.series_ohm + 1e-3 };
  const value = 1 / stated.shunt_ohm;
  return { at, value, error: Math.max(value, stated.photocurrent_A / SILICON.poorShunt_V / 2) };
}

const FACTS = [
  { key: 'photocurrent_A', what: 'current in full sun (photocurrent)', unit: 'A' },
  { key: 'saturation_A', what: 'saturation current', unit: 'A' },
  { key: 'ideality', what: 'ideality factor', unit: '' },
  { key: 'series_ohm', what: 'series resistance', unit: 'ohm' },
  { key: 'shunt_ohm', what: 'shunt resistance', unit: 'ohm' },
] as const;

/** Intervals about the nearest cell, with the values of the cell that is used. */
function estimatesOf(
  bench: BenchCell,
  solved: ReadingsFit,
  factor: number,
  { cell, stated }: { cell: SingleDiode; stated: SingleDiode | undefined },
): Estimate[] {
  const nearest = bench.cellAt(solved.values);
  const shunt_S = boundsOf(solved, AT.shunt_S, factor);
  return FACTS.map((fact): Estimate => {
    const { key } = fact;
    const known = { ...fact, value: cell[key], datasheet: stated?.[key] };
    if (key === 'shunt_ohm')
      return { ...known, low: 1 / Math.max(shunt_S.high, 1e-12), high: 1 / shunt_S.low };
    if (key === 'ideality' || key === 'series_ohm') {
      return { ...boundsOf(solved, AT[key], factor), ...known };
    }
    const slopes = slopesOf(solved, (values) => log(bench.cellAt(values)[key]), 0.01);
    const error = Math.sqrt(covarianceAlong(solved, slopes, slopes));
    const times = exp(STANDARD_ERRORS_90 * factor * error);
    return { ...known, low: nearest[key] / times, high: nearest[key] * times };
  });
}
