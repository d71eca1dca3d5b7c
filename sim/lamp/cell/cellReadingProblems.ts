import { pairs } from 'd3-array';
import { STATED_OVER_STANDARD, significant } from '../../common/Estimate.ts';
import { hypot } from '../../common/elementary/hypot.ts';
import { unitSlip } from '../../common/hints.ts';
import type { ValueProblem } from '../../common/InputProblem.ts';
import type { CellReadings, CellSection } from './schema.ts';

/** Open-circuit voltage of one silicon junction in any light worth reading. */
const LEAST_JUNCTION_V = 0.1;
const MOST_JUNCTION_V = 0.85;
const SURE = 3;

/**
 * Why readings cannot be of one cell at all: voltages that do not fit its junctions, open-circuit voltages that rise as
 * the light falls, currents in another unit than they claim.
 *
 * in: section, the cell; readings
 * out: problems with key paths below the cell
 */
export function cellReadingProblems(section: CellSection, readings: CellReadings): ValueProblem[] {
  const problems = [...junctionProblems(section, readings), ...loadProblems(readings)];
  if (problems.length === 0) problems.push(...unitProblems(section, readings));
  if (problems.length === 0) problems.push(...orderProblems(section, readings));
  return problems;
}

function* junctionProblems(
  { cells_in_series: junctions }: CellSection,
  { lights }: CellReadings,
): Generator<ValueProblem> {
  for (const [k, { open_circuit_V }] of lights.entries()) {
    const each_V = open_circuit_V / junctions;
    if (each_V >= LEAST_JUNCTION_V && each_V <= MOST_JUNCTION_V) continue;
    const slip = unitSlip(each_V, 0.5);
    yield {
      code: slip === undefined ? 'SCENARIO_CONFLICT' : 'SCENARIO_WRONG_UNIT',
      path: ['readings', 'lights', k, 'open_circuit_V'],
      got: `${open_circuit_V} V over ${junctions} junctions in series`,
      expected: `${(LEAST_JUNCTION_V * junctions).toFixed(2)} to ${(MOST_JUNCTION_V * junctions).toFixed(2)} V`,
      fix:
        slip === undefined
          ? 'check cells_in_series: about 0.6 V of open-circuit voltage each in full sun'
          : `the key is in V; write ${open_circuit_V / slip}`,
    };
  }
}

function* loadProblems({ lights }: CellReadings): Generator<ValueProblem> {
  for (const [k, { loaded }] of lights.entries()) {
    for (const [j, { current_mA, load_ohm }] of loaded.entries()) {
      if ((current_mA === undefined) !== (load_ohm === undefined)) continue;
      yield {
        code: current_mA === undefined ? 'SCENARIO_MISSING_KEY' : 'SCENARIO_CONFLICT',
        path: ['readings', 'lights', k, 'loaded', j],
        got: current_mA === undefined ? 'a voltage alone' : 'both current_mA and load_ohm',
        expected: 'the voltage with its current, or with the resistor across the cell',
        fix: 'give current_mA or load_ohm',
      };
    }
  }
}

/** The brightest current beside what the datasheet or the area lets expect, where there is either. */
function* unitProblems(section: CellSection, { lights }: CellReadings): Generator<ValueProblem> {
  const { short_circuit_mA, area_cm2 = Number.NaN, cells_in_series } = section;
  // 33 mA for each cm2 of one silicon junction: common practice, no source.
  const usual_mA = short_circuit_mA ?? (33 * area_cm2) / cells_in_series;
  const most_mA = Math.max(...lights.map((light) => light.short_circuit_mA));
  const slip = unitSlip(most_mA, usual_mA);
  if (slip === undefined) return;
  const brightest = lights.findIndex((light) => light.short_circuit_mA === most_mA);
  yield {
    code: 'SCENARIO_WRONG_UNIT',
    path: ['readings', 'lights', brightest, 'short_circuit_mA'],
    got: `${most_mA} mA in the brightest light`,
    expected: `about ${usual_mA.toPrecision(2)} mA, by the datasheet or the area`,
    fix: `the key is in mA; write ${significant(most_mA / slip, 12)}`,
  };
}

function* orderProblems(
  section: CellSection,
  { lights, temperature_error_K }: CellReadings,
): Generator<ValueProblem> {
  const tempco_V_K = (section.voltage_tempco_mV_K / 1000) * section.cells_in_series;
  const order = lights
    .map((light, k) => ({
      ...light,
      k,
      at25_V: light.open_circuit_V - tempco_V_K * (light.cell_degC - 25),
      error_V: hypot(light.voltage_step_mV / 1000, (tempco_V_K * temperature_error_K) / STATED_OVER_STANDARD),
    }))
    .sort((one, other) => other.short_circuit_mA - one.short_circuit_mA);
  for (const [bright, dim] of pairs(order)) {
    if (dim.short_circuit_mA > 0.8 * bright.short_circuit_mA) continue;
    if (dim.at25_V - bright.at25_V <= SURE * hypot(dim.error_V, bright.error_V)) continue;
    yield {
      code: 'SCENARIO_CONFLICT',
      path: ['readings', 'lights', dim.k, 'open_circuit_V'],
      got: `${dim.open_circuit_V} V at ${dim.short_circuit_mA} mA, but ${bright.open_circuit_V} V in the brighter light of ${bright.short_circuit_mA} mA`,
      expected: 'an open-circuit voltage that falls with the light (both taken to 25 degC)',
      fix: 'were two lights exchanged, or a hot cell read without cell_degC? Read them again',
    };
  }
}
