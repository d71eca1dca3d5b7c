import { type Estimate, type PartFit, STANDARD_ERRORS_90 } from '../../common/Estimate.ts';
import type { Report } from '../../common/InputProblem.ts';
import { type LeastSquaresFit, leastSquares } from '../../common/leastSquares.ts';
import { reducedChiSquare } from '../../common/reducedChiSquare.ts';
import { truncatedNormalMean } from '../../common/truncatedNormalMean.ts';
import { AT, type BenchCell, benchCell } from './benchCell.ts';
import { checkReadings } from './checkReadings.ts';
import { fromDatasheet } from './fromDatasheet.ts';
import type { SingleDiode } from './SingleDiode.ts';
import type { CellReadings, CellSection } from './schema.ts';

/** A cell found from readings. */
export interface CellFit extends PartFit {
  cell: SingleDiode;
  bench: BenchCell;
  solved: LeastSquaresFit;
}

type Known = BenchCell['known'][number];

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
export function fromReadings(
  section: CellSection,
  readings: CellReadings,
  report: Report,
): CellFit | undefined {
  if (!checkReadings(section, readings, report)) return undefined;
  const bench = benchCell(section, readings);
  const stated = statedCell(section);
  const notes: string[] = [];
  let known: Known[] = bench.known;
  let solved = solve(bench, known);
  const unsettled = unsettledOf(bench, solved);
  if (unsettled.length > 0) {
    if (stated === undefined) {
      for (const { what, measure } of unsettled) {
        report({
          code: 'FIT_UNDETERMINED',
          path: ['readings', 'lights'],
          got: `readings that leave the ${what} open`,
          expected:
            'readings that settle photocurrent, ideality, series and shunt resistance, or datasheet values beside them',
          fix: measure,
        });
      }
      return undefined;
    }
    const from = (at: number): Known => fromStated(at, stated);
    known = [...known, ...unsettled.map(({ at }) => from(at))];
    notes.push(
      `${unsettled.map(({ what }) => what).join(', ')}: the readings leave it open, so the datasheet decides; to settle it, ${unsettled.map(({ measure }) => measure).join('; ')}`,
    );
    solved = solve(bench, known);
  }
  const scatter = reducedChiSquare(solved, bench.readings, report, 'cell');
  if (scatter === undefined) return undefined;
  notes.push(...scatter.notes);
  const widened = STANDARD_ERRORS_90 * scatter.factor;
  const estimates = estimatesOf(bench, solved, widened, stated);

  const shunt_S = solved.values[AT.shunt_S]!;
  const error_S = solved.errors[AT.shunt_S]!;
  let values = solved.values;
  if (shunt_S <= widened * error_S) {
    const mean = truncatedNormalMean(shunt_S, error_S * scatter.factor);
    values = solve(bench, [...known, { at: AT.shunt_S, value: mean, error: error_S * 1e-4 }]).values;
    notes.push(
      'the shunt is too good for these readings: they give a lower bound, and the mean of what it leaves is used',
    );
  }
  const cell = bench.cellAt(values);
  if (!(cell.saturation_A > 0 && cell.shunt_ohm > 0 && Number.isFinite(cell.shunt_ohm))) {
    report({
      code: 'SCENARIO_CONFLICT',
      path: ['readings', 'lights'],
      got: `readings of which the nearest cell has a shunt of ${cell.shunt_ohm.toPrecision(3)} ohm and cannot reach its own ${values[AT.open_V]!.toFixed(2)} V`,
      expected: 'readings that one cell can show',
      fix: 'read open circuit and short circuit again, in the same light and at the temperature that is stated',
    });
    return undefined;
  }
  return {
    cell,
    bench,
    solved,
    estimates: estimates.map((estimate) => ({ ...estimate, value: sizeOf(estimate.key, cell) })),
    readings: bench.readings.map(({ what, unit, measured, error, shown }) => ({
      what,
      unit,
      measured,
      error,
      fitted: shown(solved.values),
    })),
    notes,
    keys: { raw: rounded(cell) },
  };
}

function solve(bench: BenchCell, known: readonly Known[]): LeastSquaresFit {
  const { unknowns, readings } = bench;
  return leastSquares(unknowns, readings.length + known.length, (target, values) => {
    readings.forEach(({ measured, error, shown }, i) => {
      target[i] = (shown(values) - measured) / error;
    });
    known.forEach(({ at, value, error }, i) => {
      target[readings.length + i] = (values[at]! - value) / error;
    });
  });
}

/** The unknowns that readings leave open, and what would settle them. */
function unsettledOf({ unknowns }: BenchCell, { values, errors }: LeastSquaresFit) {
  const full_A = Math.exp(values[AT.lights]!);
  const list: { at: number; what: string; measure: string }[] = [];
  if (errors[AT.ideality]! > 0.4) {
    list.push({
      at: AT.ideality,
      what: 'ideality',
      measure:
        'read short circuit and open circuit in a light of about a tenth, and of a hundredth, of full sun',
    });
  }
  if (errors[AT.series_ohm]! > 3 * unknowns[AT.series_ohm]!.scale) {
    list.push({
      at: AT.series_ohm,
      what: 'series resistance',
      measure: `read a loaded point in full sun, at about ${(0.8 * values[AT.open_V]!).toFixed(1)} V`,
    });
  }
  if (values[AT.shunt_S]! + STANDARD_ERRORS_90 * errors[AT.shunt_S]! > full_A / 5) {
    list.push({
      at: AT.shunt_S,
      what: 'shunt resistance',
      measure:
        'read short circuit and open circuit in a light of a hundredth of full sun (a window on a dull day)',
    });
  }
  return list;
}

function statedCell(section: CellSection): SingleDiode | undefined {
  const { short_circuit_mA, open_circuit_V, best_current_mA, best_voltage_V } = section;
  if ([short_circuit_mA, open_circuit_V, best_current_mA, best_voltage_V].includes(undefined))
    return undefined;
  return fromDatasheet(section, () => {});
}

function fromStated(at: number, stated: SingleDiode): Known {
  if (at === AT.ideality) return { at, value: stated.ideality, error: 0.2 };
  if (at === AT.series_ohm) return { at, value: stated.series_ohm, error: 0.5 * stated.series_ohm + 1e-3 };
  return { at, value: 1 / stated.shunt_ohm, error: 1 / stated.shunt_ohm };
}

const FACTS = [
  { key: 'photocurrent_A', what: 'photocurrent at 1000 W/m2', unit: 'A' },
  { key: 'saturation_A', what: 'saturation current', unit: 'A' },
  { key: 'ideality', what: 'ideality factor', unit: '' },
  { key: 'series_ohm', what: 'series resistance', unit: 'ohm' },
  { key: 'shunt_ohm', what: 'shunt resistance', unit: 'ohm' },
] as const satisfies readonly { key: keyof SingleDiode; what: string; unit: string }[];

function sizeOf(key: string, cell: SingleDiode): number {
  return cell[key as keyof SingleDiode];
}

function estimatesOf(
  bench: BenchCell,
  solved: LeastSquaresFit,
  widened: number,
  stated: SingleDiode | undefined,
): Estimate[] {
  const cell = bench.cellAt(solved.values);
  return FACTS.map(({ key, what, unit }): Estimate => {
    const datasheet = stated === undefined ? {} : { datasheet: stated[key] };
    const fact = { key, what, unit, value: cell[key], ...datasheet };
    if (key === 'shunt_ohm') {
      const half_S = widened * solved.errors[AT.shunt_S]!;
      const low_S = solved.values[AT.shunt_S]! - half_S;
      return {
        ...fact,
        low: 1 / Math.max(solved.values[AT.shunt_S]! + half_S, 1e-12),
        high: low_S > 0 ? 1 / low_S : Number.POSITIVE_INFINITY,
      };
    }
    if (key === 'photocurrent_A' || key === 'saturation_A') {
      const error = errorOf(solved, (values) => Math.log(bench.cellAt(values)[key]));
      const factor = Math.exp(widened * error);
      return { ...fact, low: cell[key] / factor, high: cell[key] * factor };
    }
    const half = widened * solved.errors[AT[key]]!;
    return { ...fact, low: Math.max(0, cell[key] - half), high: cell[key] + half };
  });
}

/** Standard error of a function of the unknowns. */
function errorOf(
  { values, errors, covariance }: LeastSquaresFit,
  of: (values: readonly number[]) => number,
): number {
  const slopes = values.map((value, k) => {
    const step = errors[k]! * 0.01;
    return (of(values.with(k, value + step)) - of(values.with(k, value - step))) / (2 * step);
  });
  let variance = 0;
  for (let k = 0; k < values.length; k++) {
    for (let l = 0; l < values.length; l++) variance += slopes[k]! * slopes[l]! * covariance[k]![l]!;
  }
  return Math.sqrt(variance);
}

function rounded(cell: SingleDiode): Record<string, number> {
  return Object.fromEntries(Object.entries(cell).map(([key, value]) => [key, Number(value.toPrecision(6))]));
}
