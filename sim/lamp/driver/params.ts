import { type Report, unlessReported } from '../../common/InputProblem.ts';
import type { DriverSection } from './schema.ts';
import { type DriverLaw, driverLaw } from './step.ts';

/** The driver, SI units. */
export interface DriverParams {
  law: DriverLaw;
  efficiencyAt_V: readonly number[];
  efficiency: readonly number[];
  cutoff_V: number;
  restart_V: number;
  restartNeedsDusk: boolean;
  /** The cut-off stops it with the LED off too. */
  watchesAlways: boolean;
  standby_A: number;
  belowCutoff_A: number;
  /** What it is rated down to; -Infinity where that is not stated. */
  lowest_degC: number;
}

const REBOUND_V = 0.1;
/** Less than this no comparator tells apart. */
const LEAST_REBOUND_V = 0.001;
/** Below this no driver switches. */
const LEAST_CUTOFF_V = 0.05;

/**
 * Parameters of the driver.
 *
 * in: section, as the schema gives it, library part merged in and readings settled; report, takes what cannot be
 * out: the parameters, or undefined after a problem
 */
export function driverParams(section: DriverSection, report: Report): DriverParams | undefined {
  const efficiency =
    typeof section.efficiency === 'number'
      ? [{ capacitor_V: 0, efficiency: section.efficiency }]
      : section.efficiency;
  const restart_V = section.restart_V ?? section.cutoff_V + REBOUND_V;
  const law = driverLaw(section);
  return unlessReported(report, (reporting) => {
    checkSection(section, { law, restart_V, efficiency }, reporting);
    return {
      law,
      efficiencyAt_V: efficiency.map((row) => row.capacitor_V),
      efficiency: efficiency.map((row) => row.efficiency),
      cutoff_V: section.cutoff_V,
      restart_V,
      restartNeedsDusk: section.restart_needs === 'dusk',
      watchesAlways: section.cutoff_watches === 'always',
      standby_A: section.standby_uA * 1e-6,
      belowCutoff_A: section.below_cutoff_uA * 1e-6,
      lowest_degC: section.lowest_degC ?? Number.NEGATIVE_INFINITY,
    };
  });
}

type Rows = readonly { capacitor_V: number }[];

function checkSection(
  section: DriverSection,
  { law, restart_V, efficiency }: { law: DriverLaw; restart_V: number; efficiency: Rows },
  report: Report,
): void {
  const table: Rows = section.kind === 'table' ? (section.table ?? []) : [];
  if (section.kind === 'table' && section.table === undefined) {
    report({
      code: 'SCENARIO_MISSING_KEY',
      path: ['table'],
      got: 'nothing',
      expected: 'current against capacitor voltage, as table or as readings',
      fix: 'add table: [{ capacitor_V: 0.9, current_mA: 20 }, { capacitor_V: 2.5, current_mA: 8 }]',
    });
  }
  if (restart_V < section.cutoff_V + LEAST_REBOUND_V - 1e-9) {
    report({
      code: 'SCENARIO_CONFLICT',
      path: ['restart_V'],
      got: `${restart_V} V`,
      expected: `at least ${LEAST_REBOUND_V} V more than cutoff_V, ${section.cutoff_V} V`,
      fix: 'a driver that restarts at its cut-off would chatter; read both voltages off your lamp',
    });
  }
  const drawsToNothing = law.exponent > 0 && (section.cutoff_V === 0 || section.cutoff_V >= LEAST_REBOUND_V);
  if (section.cutoff_V < LEAST_CUTOFF_V && !drawsToNothing) {
    report({
      code: 'SCENARIO_OUT_OF_RANGE',
      path: ['cutoff_V'],
      got: `${section.cutoff_V} V`,
      expected:
        law.exponent > 0
          ? `0, or a cut-off of ${LEAST_REBOUND_V} V or more`
          : `a cut-off of ${LEAST_CUTOFF_V} V or more for a driver of kind ${section.kind}`,
      fix: 'only a conductance can draw down to nothing',
    });
  }
  for (const [path, rows] of Object.entries({ efficiency, table })) {
    const falls = rows.findIndex((row, i) => i > 0 && row.capacitor_V <= rows[i - 1]!.capacitor_V);
    if (falls < 0) continue;
    report({
      code: 'SCENARIO_CONFLICT',
      path: [path, falls, 'capacitor_V'],
      got: `${rows[falls]!.capacitor_V} V after ${rows[falls - 1]!.capacitor_V} V`,
      expected: 'rows with rising capacitor voltage',
      fix: 'sort the rows by capacitor_V',
    });
  }
}
