import { FULL_SUN_W_M2, thermalVoltage_V } from '../../common/constants.ts';
import { lacksValues, type Report } from '../../common/InputProblem.ts';
import { Kept } from '../../common/Kept.ts';
import { bisect } from '../../common/numeric.ts';
import { type SingleDiode, SingleDiodeCurve, saturationBetween_A } from './SingleDiode.ts';
import type { CellSection } from './schema.ts';

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
 * valid: the fitted curve passes through short circuit, open circuit and the best point to 1e-9; its slope at the
 *   best point is met where ideality 0.7 to 2.5 and a series resistance of 0 or more can, else the nearest is taken
 * source: DeSoto2006 (the four conditions), with the shunt stated instead of fitted
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

interface FourValues {
  shortCircuit_A: number;
  openCircuit_V: number;
  best_A: number;
  best_V: number;
  junctions: number;
}

const fits = new Kept<SingleDiode | undefined>();

/**
 * One cell from its datasheet values, kept for the next lamp with the same cell.
 *
 * in: section, as the schema gives it, library part already merged in; report, takes what cannot be
 * out: the cell, or undefined after a problem
 * source: DeSoto2006 (the four conditions), with the shunt stated instead of fitted
 */
export function fromDatasheet(section: CellSection, report: Report): SingleDiode | undefined {
  const keys = ['short_circuit_mA', 'open_circuit_V', 'best_current_mA', 'best_voltage_V'] as const;
  if (lacksValues(section, keys, 'small-cell', report)) return undefined;
  const four: FourValues = {
    shortCircuit_A: section.short_circuit_mA! / 1000,
    openCircuit_V: section.open_circuit_V!,
    best_A: section.best_current_mA! / 1000,
    best_V: section.best_voltage_V!,
    junctions: section.cells_in_series,
  };
  const filling = (four.best_A * four.best_V) / (four.shortCircuit_A * four.openCircuit_V);
  if (four.best_A >= four.shortCircuit_A || four.best_V >= four.openCircuit_V || filling < 0.3) {
    report({
      code: 'SCENARIO_CONFLICT',
      path: [four.best_A >= four.shortCircuit_A ? 'best_current_mA' : 'best_voltage_V'],
      got: `best point ${section.best_current_mA} mA at ${four.best_V} V`,
      expected: `a point below ${section.short_circuit_mA} mA and ${four.openCircuit_V} V with a fill factor over 0.3`,
      fix: 'look the four values up again; best point means maximum power in full sun',
    });
    return undefined;
  }
  const { low_light_point: dim, shunt_V } = section;
  const fitted = fits.of([four, dim ?? shunt_V], () =>
    dim ? fitShunt(four, dim.irradiance_W_m2, dim.open_circuit_V) : fitIdeality(four, shunt_V),
  );
  if (fitted === undefined) {
    report({
      code: 'SCENARIO_CONFLICT',
      path: [section.low_light_point ? 'low_light_point' : 'best_voltage_V'],
      got: `${section.short_circuit_mA} mA, ${four.openCircuit_V} V, ${section.best_current_mA} mA at ${four.best_V} V`,
      expected: 'values that one cell of this many junctions can show',
      fix: 'check cells_in_series (about 0.6 V of open-circuit voltage each), shunt_V and the best point',
    });
  }
  return fitted;
}

/** The curve of a cell at 25 degC. */
function curveOf(cell: SingleDiode, junctions: number, shareOfFullSun = 1): SingleDiodeCurve {
  const thermal_V = cell.ideality * junctions * thermalVoltage_V();
  return new SingleDiodeCurve(
    1 / cell.shunt_ohm,
    thermal_V,
    cell.saturation_A,
    cell.photocurrent_A * shareOfFullSun,
  );
}

/** Saturation and photocurrent that meet short and open circuit exactly, for a given ideality, series and shunt. */
function meetEnds(four: FourValues, ideality: number, series_ohm: number, shunt_ohm: number): SingleDiode {
  const thermal_V = ideality * four.junctions * thermalVoltage_V();
  const path = { thermal_V, series_ohm, shunt_ohm };
  const saturation_A = saturationBetween_A(four.shortCircuit_A, four.openCircuit_V, path);
  const cell = { photocurrent_A: 0, saturation_A, ideality, series_ohm, shunt_ohm };
  const dark = curveOf(cell, four.junctions);
  dark.at(four.openCircuit_V);
  return { ...cell, photocurrent_A: -dark.cell_A };
}

/** The curve at the junction's voltage of the best point. */
function curveAtBest(four: FourValues, cell: SingleDiode): SingleDiodeCurve {
  const curve = curveOf(cell, four.junctions);
  curve.at(four.best_V + four.best_A * cell.series_ohm);
  return curve;
}

/** The cell of a given ideality whose curve passes through the best point; undefined where none does. */
function throughBest(four: FourValues, ideality: number, shunt_ohm: number): SingleDiode | undefined {
  const most_ohm = (four.openCircuit_V - four.best_V) / four.best_A;
  const excess = (series_ohm: number) =>
    curveAtBest(four, meetEnds(four, ideality, series_ohm, shunt_ohm)).cell_A - four.best_A;
  if (excess(0) < 0) return undefined;
  const series_ohm = bisect(excess, 0, most_ohm * 0.999999);
  return series_ohm === undefined ? undefined : meetEnds(four, ideality, series_ohm, shunt_ohm);
}

/** How much steeper the curve is at the best point than a maximum of power wants, in siemens. */
function slopeExcess(four: FourValues, cell: SingleDiode): number {
  const { cellFall_S } = curveAtBest(four, cell);
  return cellFall_S / (1 + cellFall_S * cell.series_ohm) - four.best_A / four.best_V;
}

function fitIdeality(four: FourValues, shunt_V: number): SingleDiode | undefined {
  const shunt_ohm = shunt_V / four.shortCircuit_A;
  let nearest: SingleDiode | undefined;
  let least = Number.POSITIVE_INFINITY;
  let before: { ideality: number; slope: number } | undefined;
  for (let ideality = 0.7; ideality <= 2.5001; ideality += 0.02) {
    const cell = throughBest(four, ideality, shunt_ohm);
    if (cell === undefined) continue;
    const slope = slopeExcess(four, cell);
    if (before !== undefined && before.slope * slope < 0) {
      const root = bisect(
        (n) => {
          const through = throughBest(four, n, shunt_ohm);
          return through === undefined ? Number.NaN : slopeExcess(four, through);
        },
        before.ideality,
        ideality,
      );
      if (root !== undefined) return throughBest(four, root, shunt_ohm);
    }
    before = { ideality, slope };
    if (Math.abs(slope) < least) {
      least = Math.abs(slope);
      nearest = cell;
    }
  }
  return nearest;
}

/** The shunt that makes the open-circuit voltage in dim light what was measured. */
function fitShunt(four: FourValues, irradiance_W_m2: number, dimOpen_V: number): SingleDiode | undefined {
  const off = (logShunt_V: number) => {
    const cell = fitIdeality(four, Math.exp(logShunt_V));
    if (cell === undefined) return Number.NaN;
    const dim = curveOf(cell, four.junctions, irradiance_W_m2 / FULL_SUN_W_M2);
    return dim.junctionAtCurrent_V(0) - dimOpen_V;
  };
  // A shunt too small cannot meet the best point at all: the bracket begins where it can.
  const highest = Math.log(1e5);
  let low = Math.log(four.openCircuit_V * 3);
  while (low < highest && Number.isNaN(off(low))) low += 0.2;
  const root = bisect(off, low, highest);
  return root === undefined ? undefined : fitIdeality(four, Math.exp(root));
}
