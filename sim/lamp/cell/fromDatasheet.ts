import { FULL_SUN_W_M2 } from '../../common/constants.ts';
import type { Report } from '../../common/InputProblem.ts';
import { bisect } from '../../common/numeric.ts';
import { openCircuit_V, type SingleDiode, THERMAL_AT_25_V } from './SingleDiode.ts';
import type { CellSection } from './schema.ts';

interface FourValues {
  shortCircuit_A: number;
  openCircuit_V: number;
  best_A: number;
  best_V: number;
  junctions: number;
}

/**
 * One cell from its datasheet values.
 *
 * in: section, as the schema gives it, library part already merged in; report, takes what cannot be
 * out: the cell, or undefined after a problem
 * source: DeSoto2006 (the four conditions), with the shunt stated instead of fitted
 */
export function fromDatasheet(section: CellSection, report: Report): SingleDiode | undefined {
  const keys = ['short_circuit_mA', 'open_circuit_V', 'best_current_mA', 'best_voltage_V'] as const;
  const missing = keys.filter((key) => section[key] === undefined);
  for (const key of missing) {
    report({
      code: 'SCENARIO_MISSING_KEY',
      path: [key],
      got: 'nothing',
      expected: 'a datasheet value, a library part, or raw model parameters',
      fix: `add ${key}, or part: small-cell`,
    });
  }
  if (missing.length > 0) return undefined;
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
  const fitted = section.low_light_point
    ? fitShunt(four, section.low_light_point.irradiance_W_m2, section.low_light_point.open_circuit_V)
    : fitIdeality(four, section.shunt_V);
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

/** Saturation and photocurrent that meet short and open circuit exactly, for a given ideality, series and shunt. */
function meetEnds(four: FourValues, ideality: number, series_ohm: number, shunt_ohm: number): SingleDiode {
  const a = ideality * four.junctions * THERMAL_AT_25_V;
  const saturation_A =
    (four.shortCircuit_A * (1 + series_ohm / shunt_ohm) - four.openCircuit_V / shunt_ohm) /
    (Math.exp(four.openCircuit_V / a) - Math.exp((four.shortCircuit_A * series_ohm) / a));
  const photocurrent_A = saturation_A * Math.expm1(four.openCircuit_V / a) + four.openCircuit_V / shunt_ohm;
  return { photocurrent_A, saturation_A, ideality, series_ohm, shunt_ohm };
}

/** Current at the junction voltage, less the current that the best point asks for. */
function excessAtBest(four: FourValues, cell: SingleDiode): number {
  const a = cell.ideality * four.junctions * THERMAL_AT_25_V;
  const junction_V = four.best_V + four.best_A * cell.series_ohm;
  return (
    cell.photocurrent_A -
    cell.saturation_A * Math.expm1(junction_V / a) -
    junction_V / cell.shunt_ohm -
    four.best_A
  );
}

/** The cell of a given ideality whose curve passes through the best point; undefined where none does. */
function throughBest(four: FourValues, ideality: number, shunt_ohm: number): SingleDiode | undefined {
  const most_ohm = (four.openCircuit_V - four.best_V) / four.best_A;
  const excess = (series_ohm: number) => excessAtBest(four, meetEnds(four, ideality, series_ohm, shunt_ohm));
  if (excess(0) < 0) return undefined;
  const series_ohm = bisect(excess, 0, most_ohm * 0.999999);
  return series_ohm === undefined ? undefined : meetEnds(four, ideality, series_ohm, shunt_ohm);
}

/** How much steeper the curve is at the best point than a maximum of power wants, in siemens. */
function slopeExcess(four: FourValues, cell: SingleDiode): number {
  const a = cell.ideality * four.junctions * THERMAL_AT_25_V;
  const junction_V = four.best_V + four.best_A * cell.series_ohm;
  const conductance = (cell.saturation_A / a) * Math.exp(junction_V / a) + 1 / cell.shunt_ohm;
  return conductance / (1 + conductance * cell.series_ohm) - four.best_A / four.best_V;
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
    const thermal_V = cell.ideality * four.junctions * THERMAL_AT_25_V;
    return openCircuit_V(cell, thermal_V, irradiance_W_m2 / FULL_SUN_W_M2) - dimOpen_V;
  };
  // A shunt too small cannot meet the best point at all: the bracket begins where it can.
  const highest = Math.log(1e5);
  let low = Math.log(four.openCircuit_V * 3);
  while (low < highest && Number.isNaN(off(low))) low += 0.2;
  const root = bisect(off, low, highest);
  return root === undefined ? undefined : fitIdeality(four, Math.exp(root));
}
