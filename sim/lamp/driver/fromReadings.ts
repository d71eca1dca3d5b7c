import {
  type Estimate,
  type PartFit,
  STANDARD_ERRORS_90,
  STATED_OVER_STANDARD,
} from '../../common/Estimate.ts';
import { fitReadings, fittedReadings, reducedChiSquare } from '../../common/fitReadings.ts';
import { unitSlip } from '../../common/hints.ts';
import type { Report } from '../../common/InputProblem.ts';
import { piecewiseLinear } from '../../common/numeric.ts';
import type { DriverReadings, DriverSection } from './schema.ts';

/** A driver found from readings: keys as the section has them. */
export interface DriverFit extends PartFit {
  keys: Record<string, unknown>;
}

const ROUNDING = 1 / Math.sqrt(12);
/** How well a stated efficiency is believed, as a standard deviation. */
const EFFICIENCY_LATITUDE = 0.05;

interface Drawn {
  path: (string | number)[];
  capacitor_V: number;
  supply_A: number;
  error_A: number;
  /** NaN where it was not read. */
  output_V: number;
  /** NaN where it cannot be told. */
  efficiency: number;
}

/**
 * A driver from its readings: the one unknown of its kind (power, current, conductance, effective inductance, or the
 * rows of a table) with its 90 percent interval; cut-off, restart, standby and efficiency as they were read.
 *
 * in: section, the driver; readings; report, takes readings that such a driver cannot show
 * out: the keys they replace, or undefined after a problem
 * valid: rows with LED current alone take the supply from the stated efficiency; a boost's rows above
 *   (1 - duty) times its output, where its formula does not hold, are left out
 * source: EricksonMaksimovic2001, JCGM100 (intervals from the slopes)
 */
export function driverFromReadings(
  section: DriverSection,
  readings: DriverReadings,
  report: Report,
): DriverFit | undefined {
  const drawn = drawnRows(section, readings, report);
  if (drawn === undefined) return undefined;
  const law = drawn.length === 0 ? noLaw() : lawFit(section, drawn, readings, report);
  if (law === undefined) return undefined;
  const keys: Record<string, unknown> = { ...law.keys };
  const read: Estimate[] = [];
  const plain = (key: string, what: string, unit: string, value: number | undefined, datasheet?: number) => {
    if (value === undefined) return;
    keys[key] = value;
    const beside = datasheet === undefined ? {} : { datasheet };
    read.push({ key, what, unit, value, low: value, high: value, ...beside });
  };
  plain('cutoff_V', 'capacitor voltage at which it stops', 'V', readings.cutoff_V, section.cutoff_V);
  plain(
    'restart_V',
    'capacitor voltage at which it dares again',
    'V',
    readings.restarts_V,
    section.restart_V,
  );
  plain('standby_uA', 'current with the LED off', 'uA', readings.standby_uA, section.standby_uA);
  const known = drawn.filter(({ efficiency }) => !Number.isNaN(efficiency));
  if (known.length > 0) {
    keys.efficiency = known.map(({ capacitor_V, efficiency }) => ({
      capacitor_V,
      efficiency: digits(efficiency, 3),
    }));
    for (const { capacitor_V, efficiency } of known) {
      const half =
        (STANDARD_ERRORS_90 * Math.SQRT2 * readings.current_error_percent) / 100 / STATED_OVER_STANDARD;
      read.push({
        key: `efficiency at ${capacitor_V} V`,
        what: `efficiency at ${capacitor_V} V`,
        unit: '',
        value: efficiency,
        low: efficiency * (1 - half),
        high: efficiency * (1 + half),
        datasheet: statedEfficiency(section, capacitor_V),
      });
    }
  }
  return { ...law, estimates: [...law.estimates, ...read], keys };
}

function statedEfficiency({ efficiency }: DriverSection, capacitor_V: number): number {
  if (typeof efficiency === 'number') return efficiency;
  return piecewiseLinear(
    efficiency.map((row) => row.capacitor_V),
    efficiency.map((row) => row.efficiency),
    capacitor_V,
  );
}

function drawnRows(section: DriverSection, readings: DriverReadings, report: Report): Drawn[] | undefined {
  const rows: Drawn[] = [];
  let sound = true;
  const refuse: Report = (problem) => {
    sound = false;
    report(problem);
  };
  const part = readings.current_error_percent / 100 / STATED_OVER_STANDARD;
  const order = readings.rows
    .map((row, at) => ({ ...row, at }))
    .sort((a, b) => a.capacitor_V - b.capacitor_V);
  for (const { at, capacitor_V, supply_mA, led_mA, led_V } of order) {
    const path = ['readings', 'rows', at];
    const led_W = led_mA === undefined || led_V === undefined ? Number.NaN : (led_mA / 1000) * led_V;
    if (supply_mA === undefined && Number.isNaN(led_W)) {
      refuse({
        code: 'FIT_UNDETERMINED',
        path,
        got: 'a row without the current drawn',
        expected: 'supply_mA, or led_mA with led_V',
        fix: 'read the current from the capacitor into the driver',
      });
      continue;
    }
    const efficiency = supply_mA === undefined ? Number.NaN : led_W / ((supply_mA / 1000) * capacitor_V);
    if (efficiency > 1.02) {
      const slip = unitSlip(efficiency, 0.9);
      refuse({
        code: slip === undefined ? 'SCENARIO_CONFLICT' : 'SCENARIO_WRONG_UNIT',
        path: [...path, 'supply_mA'],
        got: `${supply_mA} mA at ${capacitor_V} V, less than the ${(led_W * 1000).toPrecision(3)} mW of the LED`,
        expected: 'more power drawn than the LED takes',
        fix: slip === undefined ? 'read both again' : 'both currents are in mA',
      });
      continue;
    }
    const stated = statedEfficiency(section, capacitor_V);
    const supply_A = supply_mA === undefined ? led_W / (stated * capacitor_V) : supply_mA / 1000;
    const step_A = (readings.current_step_mA / 1000) * ROUNDING;
    rows.push({
      path: [...path, supply_mA === undefined ? 'led_mA' : 'supply_mA'],
      capacitor_V,
      supply_A,
      error_A: Math.hypot(
        step_A,
        supply_A * (supply_mA === undefined ? Math.hypot(part, EFFICIENCY_LATITUDE) : part),
      ),
      output_V:
        led_V === undefined ? Number.NaN : led_V + (section.kind === 'boost' ? section.rectifier_drop_V : 0),
      efficiency: Math.min(1, efficiency),
    });
  }
  return sound ? rows : undefined;
}

type Law = Omit<DriverFit, 'keys'> & { keys: Record<string, unknown> };

function noLaw(): Law {
  return { estimates: [], readings: [], notes: [], keys: {} };
}

/** The unknown of a kind: its key, what it is, and how much it draws at 1 of its unit. */
interface Unknown {
  key: string;
  what: string;
  unit: string;
  stated: number;
  /** The current is the unknown times this; for an inductance, this over the unknown. */
  draw_A: (row: Drawn) => number;
  inverse?: true;
}

function unknownOf(section: DriverSection): Unknown | undefined {
  switch (section.kind) {
    case 'power':
      return {
        key: 'power_mW',
        what: 'power drawn',
        unit: 'mW',
        stated: section.power_mW,
        draw_A: ({ capacitor_V }) => 1e-3 / capacitor_V,
      };
    case 'current':
      return {
        key: 'current_mA',
        what: 'current drawn',
        unit: 'mA',
        stated: section.current_mA,
        draw_A: () => 1e-3,
      };
    case 'conductance':
      return {
        key: 'conductance_mS',
        what: 'current over voltage',
        unit: 'mS',
        stated: section.conductance_mS,
        draw_A: ({ capacitor_V }) => 1e-3 * capacitor_V,
      };
    case 'boost':
      return {
        key: 'inductance_uH',
        what: 'inductance that draws as much',
        unit: 'uH',
        stated: section.inductance_uH,
        inverse: true,
        draw_A: ({ capacitor_V, output_V }) =>
          ((section.duty ** 2 / (2 * 1e-6 * section.frequency_kHz * 1e3)) * capacitor_V * output_V) /
          (output_V - capacitor_V),
      };
    case 'table':
      return undefined;
  }
}

function lawFit(
  section: DriverSection,
  rows: readonly Drawn[],
  readings: DriverReadings,
  report: Report,
): Law | undefined {
  const unknown = unknownOf(section);
  if (unknown === undefined) return tableOf(rows, report);
  const notes: string[] = [];
  let used = rows;
  if (section.kind === 'boost') {
    const blind = rows.find(({ output_V }) => Number.isNaN(output_V));
    if (blind !== undefined) {
      report({
        code: 'FIT_UNDETERMINED',
        path: blind.path.slice(0, -1),
        got: 'a row of a boost without led_V',
        expected: 'the voltage across the LED beside the current drawn',
        fix: 'read the voltage across the LED too',
      });
      return undefined;
    }
    used = rows.filter(({ capacitor_V, output_V }) => capacitor_V < (1 - section.duty) * output_V);
    if (used.length < rows.length) {
      notes.push(
        'rows above (1 - duty) times the output are left out: they tell current_limit_mA, not the inductor',
      );
    }
    if (used.length === 0) return { ...noLaw(), notes };
  }
  const { key, what, unit, stated, draw_A, inverse } = unknown;
  const facts = used.map(({ path, capacitor_V, supply_A, error_A }) => ({
    what: `current drawn at ${capacitor_V} V`,
    unit: 'A',
    path,
    measured: supply_A,
    error: error_A,
  }));
  const guess = used[0]!.supply_A / draw_A(used[0]!);
  const solved = fitReadings({
    unknowns: [{ start: guess, scale: 0.1 * guess }],
    priors: [],
    readings: facts,
    shownInto: (target, values) => {
      used.forEach((row, i) => {
        target[i] = draw_A(row) * values[0]!;
      });
    },
  });
  const value = inverse ? 1 / solved.values[0]! : solved.values[0]!;
  const slip = unitSlip(value, stated);
  if (slip !== undefined) {
    report({
      code: 'SCENARIO_WRONG_UNIT',
      path: used[0]!.path,
      got: `currents that make ${value.toPrecision(3)} ${unit}`,
      expected: `about ${stated} ${unit}, as ${key} says`,
      fix: `currents are in mA, voltages in V, ${key} in ${unit}`,
    });
    return undefined;
  }
  const scatter = reducedChiSquare(solved, report, `driver of kind ${section.kind}`);
  if (scatter === undefined) return undefined;
  // The ammeter's error is shared by all rows: averaging does not lessen it.
  const shared = readings.current_error_percent / 100 / STATED_OVER_STANDARD;
  const half =
    STANDARD_ERRORS_90 * Math.hypot((solved.errors[0]! / solved.values[0]!) * scatter.factor, shared);
  return {
    estimates: [
      { key, what, unit, value, low: value * (1 - half), high: value * (1 + half), datasheet: stated },
    ],
    readings: fittedReadings(solved),
    notes: [...notes, ...scatter.notes],
    keys: { [key]: digits(value, 4) },
  };
}

function tableOf(rows: readonly Drawn[], report: Report): Law | undefined {
  if (rows.length < 2) {
    report({
      code: 'FIT_UNDETERMINED',
      path: ['readings', 'rows'],
      got: `${rows.length} row`,
      expected: 'two rows or more for a driver of kind table',
      fix: 'read the current at the highest and the lowest capacitor voltage, and between',
    });
    return undefined;
  }
  return {
    estimates: rows.map(({ capacitor_V, supply_A, error_A }) => ({
      key: `current_mA at ${capacitor_V} V`,
      what: `current drawn at ${capacitor_V} V`,
      unit: 'mA',
      value: supply_A * 1000,
      low: (supply_A - STANDARD_ERRORS_90 * error_A) * 1000,
      high: (supply_A + STANDARD_ERRORS_90 * error_A) * 1000,
    })),
    readings: [],
    notes: [],
    keys: {
      table: rows.map(({ capacitor_V, supply_A }) => ({
        capacitor_V,
        current_mA: digits(supply_A * 1000, 4),
      })),
    },
  };
}

function digits(value: number, count: number): number {
  return Number(value.toPrecision(count));
}
