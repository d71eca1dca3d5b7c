import type { Report } from '../../common/InputProblem.ts';
import { fromDatasheet } from './fromDatasheet.ts';
import type { CellSection } from './schema.ts';
import { curveOf } from './sheetCell.ts';

/** The whole bank of cells as one single-diode cell, at 1000 W/m2 and 25 degC, SI units. */
export interface CellParams {
  photocurrent_A: number;
  saturation_A: number;
  /** Ideality times the number of junctions in series. */
  idealityTimesJunctions: number;
  series_ohm: number;
  shunt_ohm: number;
  openCircuit_V: number;
  /** Relative change of the photocurrent, 1/K. */
  currentTempco_per_K: number;
  /** Change of the open-circuit voltage of the bank, V/K. */
  voltageTempco_V_per_K: number;
  /** Area of all cells; NaN where the scenario does not give it. */
  area_m2: number;
}

/** The coldest a garden gets, below 25 degC. */
const COLDER_K = 65;

/**
 * The single-diode parameters of a bank of cells, from its datasheet values or its raw parameters.
 *
 * in: section, as the schema gives it, library part merged in and readings settled; report, takes what cannot be
 * out: the bank as one cell, or undefined after a problem
 * valid: the curve of a datasheet passes through short circuit, open circuit and the best point to 1e-9, or below the
 *   best point by up to 5 percent where the shunt takes too much
 */
export function cellParams(section: CellSection, report: Report): CellParams | undefined {
  const one = section.raw ?? fromDatasheet(section, report);
  if (one === undefined) return undefined;
  const { parallel, series, cells_in_series: junctions } = section;
  const open_V = curveOf(one, junctions).junctionAtCurrent_V(0);
  const tempco_V_K = (section.voltage_tempco_mV_K / 1000) * junctions;
  const cold_V = open_V - tempco_V_K * COLDER_K;
  const least_ohm = (1.1 * cold_V) / one.photocurrent_A;
  if (one.shunt_ohm < least_ohm) {
    report({
      code: 'SCENARIO_CONFLICT',
      path: section.raw === undefined ? ['shunt_V'] : ['raw', 'shunt_ohm'],
      got: `a shunt of ${one.shunt_ohm.toPrecision(3)} ohm, which takes all of ${one.photocurrent_A} A at ${(one.shunt_ohm * one.photocurrent_A).toPrecision(3)} V`,
      expected: `at least ${least_ohm.toPrecision(3)} ohm: the cell must reach ${cold_V.toFixed(2)} V in the cold`,
      fix: 'a cell as leaky as that lights no lamp; look the shunt up again',
    });
    return undefined;
  }
  return {
    photocurrent_A: one.photocurrent_A * parallel,
    saturation_A: one.saturation_A * parallel,
    idealityTimesJunctions: one.ideality * junctions * series,
    series_ohm: (one.series_ohm * series) / parallel,
    shunt_ohm: (one.shunt_ohm * series) / parallel,
    openCircuit_V: open_V * series,
    currentTempco_per_K: section.current_tempco_percent_K / 100,
    voltageTempco_V_per_K: tempco_V_K * series,
    area_m2: section.area_cm2 === undefined ? Number.NaN : section.area_cm2 * 1e-4 * parallel * series,
  };
}
