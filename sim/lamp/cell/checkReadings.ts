import { STATED_OVER_STANDARD } from '../../common/Estimate.ts';
import { unitSlip } from '../../common/hints.ts';
import type { Report } from '../../common/InputProblem.ts';
import type { CellReadings, CellSection } from './schema.ts';

/** Open-circuit voltage of one silicon junction in any light worth reading. */
const LEAST_JUNCTION_V = 0.1;
const MOST_JUNCTION_V = 0.85;
const SURE = 3;

/**
 * Whether readings of a cell can be of one cell at all: voltages that fit its junctions, open-circuit voltages that
 * fall with the light, currents in the unit they claim.
 *
 * in: section, the cell; readings; report, takes what cannot be
 * out: false after a problem
 */
export function checkReadings(section: CellSection, readings: CellReadings, report: Report): boolean {
  const { lights } = readings;
  let sound = true;
  const refuse: Report = (problem) => {
    sound = false;
    report(problem);
  };
  const junctions = section.cells_in_series;
  lights.forEach(({ open_circuit_V }, k) => {
    const each_V = open_circuit_V / junctions;
    if (each_V >= LEAST_JUNCTION_V && each_V <= MOST_JUNCTION_V) return;
    const slip = unitSlip(each_V, 0.5);
    refuse({
      code: slip === undefined ? 'SCENARIO_CONFLICT' : 'SCENARIO_WRONG_UNIT',
      path: ['readings', 'lights', k, 'open_circuit_V'],
      got: `${open_circuit_V} V over ${junctions} junctions in series`,
      expected: `${(LEAST_JUNCTION_V * junctions).toFixed(2)} to ${(MOST_JUNCTION_V * junctions).toFixed(2)} V`,
      fix:
        slip === undefined
          ? 'check cells_in_series: about 0.6 V of open-circuit voltage each in full sun'
          : `the key is in V; write ${open_circuit_V / slip}`,
    });
  });
  for (const [k, { loaded }] of lights.entries()) {
    loaded.forEach(({ current_mA, load_ohm }, j) => {
      if ((current_mA === undefined) !== (load_ohm === undefined)) return;
      refuse({
        code: current_mA === undefined ? 'SCENARIO_MISSING_KEY' : 'SCENARIO_CONFLICT',
        path: ['readings', 'lights', k, 'loaded', j],
        got: current_mA === undefined ? 'a voltage alone' : 'both current_mA and load_ohm',
        expected: 'the voltage with its current, or with the resistor across the cell',
        fix: 'give current_mA or load_ohm',
      });
    });
  }
  if (!sound) return false;

  const brightest = lights.reduce((best, light) =>
    light.short_circuit_mA > best.short_circuit_mA ? light : best,
  );
  const usual_mA = usualCurrent_mA(section);
  const slip = usual_mA === undefined ? undefined : unitSlip(brightest.short_circuit_mA, usual_mA);
  if (slip !== undefined) {
    refuse({
      code: 'SCENARIO_WRONG_UNIT',
      path: ['readings', 'lights', lights.indexOf(brightest), 'short_circuit_mA'],
      got: `${brightest.short_circuit_mA} mA in the brightest light`,
      expected: `about ${usual_mA!.toPrecision(2)} mA, by the datasheet or the area`,
      fix: `the key is in mA; write ${Number((brightest.short_circuit_mA / slip).toPrecision(12))}`,
    });
    return false;
  }

  const tempco_V_K = (section.voltage_tempco_mV_K / 1000) * junctions;
  const at25_V = (k: number) => lights[k]!.open_circuit_V - tempco_V_K * (lights[k]!.cell_degC - 25);
  const error_V = (k: number) =>
    Math.hypot(
      lights[k]!.voltage_step_mV / 1000,
      (tempco_V_K * readings.temperature_error_K) / STATED_OVER_STANDARD,
    );
  const order = lights
    .map((_, k) => k)
    .sort((one, other) => lights[other]!.short_circuit_mA - lights[one]!.short_circuit_mA);
  for (let i = 1; i < order.length; i++) {
    const [bright, dim] = [order[i - 1]!, order[i]!];
    if (lights[dim]!.short_circuit_mA > 0.8 * lights[bright]!.short_circuit_mA) continue;
    const rise_V = at25_V(dim) - at25_V(bright);
    if (rise_V <= SURE * Math.hypot(error_V(dim), error_V(bright))) continue;
    refuse({
      code: 'SCENARIO_CONFLICT',
      path: ['readings', 'lights', dim, 'open_circuit_V'],
      got: `${lights[dim]!.open_circuit_V} V at ${lights[dim]!.short_circuit_mA} mA, but ${lights[bright]!.open_circuit_V} V in the brighter light of ${lights[bright]!.short_circuit_mA} mA`,
      expected: 'an open-circuit voltage that falls with the light (both taken to 25 degC)',
      fix: 'were two lights exchanged, or a hot cell read without cell_degC? Read them again',
    });
  }
  return sound;
}

/** Full-sun current that the datasheet beside the readings, or the area, lets expect; undefined without either. */
function usualCurrent_mA({ short_circuit_mA, area_cm2, cells_in_series }: CellSection): number | undefined {
  if (short_circuit_mA !== undefined) return short_circuit_mA;
  // 33 mA for each cm2 of one silicon junction: common practice, no source.
  return area_cm2 === undefined ? undefined : (33 * area_cm2) / cells_in_series;
}
