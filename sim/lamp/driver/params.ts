import type { Report } from '../../common/InputProblem.ts';
import { driverFromReadings } from './fromReadings.ts';
import type { DriverSection } from './schema.ts';

/** What the driver draws, by kind, SI units. */
export type DriverLaw =
  | { kind: 'power'; power_W: number }
  | { kind: 'current'; current_A: number }
  | { kind: 'conductance'; conductance_S: number }
  | {
      kind: 'boost';
      /** D^2 / (2 L f), siemens: input power over V^2, before the factor Vout / (Vout - V). */
      inductor_S: number;
      duty: number;
      rectifier_V: number;
      /** NaN where the scenario states none. */
      limit_A: number;
    }
  | { kind: 'table'; capacitor_V: readonly number[]; current_A: readonly number[] };

/** The driver, SI units. */
export interface DriverParams {
  law: DriverLaw;
  efficiencyAt_V: readonly number[];
  efficiency: readonly number[];
  cutoff_V: number;
  restart_V: number;
  restartNeedsDusk: boolean;
  standby_A: number;
  belowCutoff_A: number;
}

const REBOUND_V = 0.1;

/**
 * Parameters of the driver.
 *
 * in: section, as the schema gives it, library part already merged in; report, takes what cannot be
 * out: the parameters, or undefined after a problem
 */
export function driverParams(given: DriverSection, report: Report): DriverParams | undefined {
  const fit = given.readings && driverFromReadings(given, given.readings, report);
  if (given.readings !== undefined && fit === undefined) return undefined;
  const section = { ...given, ...fit?.keys } as DriverSection;
  const table = section.kind === 'table' ? section.table : undefined;
  if (section.kind === 'table' && table === undefined) {
    report({
      code: 'SCENARIO_MISSING_KEY',
      path: ['table'],
      got: 'nothing',
      expected: 'current against capacitor voltage, as table or as readings',
      fix: 'add table: [{ capacitor_V: 0.9, current_mA: 20 }, { capacitor_V: 2.5, current_mA: 8 }]',
    });
    return undefined;
  }
  let sound = true;
  const refuse: Report = (problem) => {
    sound = false;
    report(problem);
  };
  const restart_V = section.restart_V ?? section.cutoff_V + REBOUND_V;
  if (restart_V <= section.cutoff_V) {
    refuse({
      code: 'SCENARIO_CONFLICT',
      path: ['restart_V'],
      got: `${restart_V} V`,
      expected: `more than cutoff_V, ${section.cutoff_V} V`,
      fix: 'a driver that restarts at its cut-off would chatter; read both voltages off your lamp',
    });
  }
  if (section.cutoff_V <= 0 && section.kind !== 'conductance') {
    refuse({
      code: 'SCENARIO_OUT_OF_RANGE',
      path: ['cutoff_V'],
      got: '0 V',
      expected: `a cut-off above 0 V for a driver of kind ${section.kind}`,
      fix: 'only a conductance can draw down to nothing',
    });
  }
  const efficiency =
    typeof section.efficiency === 'number'
      ? [{ capacitor_V: 0, efficiency: section.efficiency }]
      : section.efficiency;
  for (const [path, rows] of [
    ['efficiency', efficiency],
    ['table', table ?? []],
  ] as const) {
    const falls = rows.findIndex((row, i) => i > 0 && row.capacitor_V <= rows[i - 1]!.capacitor_V);
    if (falls < 0) continue;
    refuse({
      code: 'SCENARIO_CONFLICT',
      path: [path, falls, 'capacitor_V'],
      got: `${rows[falls]!.capacitor_V} V after ${rows[falls - 1]!.capacitor_V} V`,
      expected: 'rows with rising capacitor voltage',
      fix: 'sort the rows by capacitor_V',
    });
  }
  if (!sound) return undefined;
  return {
    law: lawOf(section, table ?? []),
    efficiencyAt_V: efficiency.map((row) => row.capacitor_V),
    efficiency: efficiency.map((row) => row.efficiency),
    cutoff_V: section.cutoff_V,
    restart_V,
    restartNeedsDusk: section.restart_needs === 'dusk',
    standby_A: section.standby_uA * 1e-6,
    belowCutoff_A: section.below_cutoff_uA * 1e-6,
  };
}

function lawOf(
  section: DriverSection,
  table: readonly { capacitor_V: number; current_mA: number }[],
): DriverLaw {
  switch (section.kind) {
    case 'power':
      return { kind: 'power', power_W: section.power_mW / 1000 };
    case 'current':
      return { kind: 'current', current_A: section.current_mA / 1000 };
    case 'conductance':
      return { kind: 'conductance', conductance_S: section.conductance_mS / 1000 };
    case 'table':
      return {
        kind: 'table',
        capacitor_V: table.map((row) => row.capacitor_V),
        current_A: table.map((row) => row.current_mA / 1000),
      };
    case 'boost':
      return {
        kind: 'boost',
        inductor_S: section.duty ** 2 / (2 * section.inductance_uH * 1e-6 * section.frequency_kHz * 1e3),
        duty: section.duty,
        rectifier_V: section.rectifier_drop_V,
        limit_A: section.current_limit_mA === undefined ? Number.NaN : section.current_limit_mA / 1000,
      };
  }
}
