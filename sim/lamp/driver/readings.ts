import {
  around,
  type Estimate,
  type PartFit,
  ROUNDING,
  STANDARD_ERRORS_90,
  significant,
  standardShare,
} from '../../common/Estimate.ts';
import { hypot } from '../../common/elementary/hypot.ts';
import { fitReadings, fittedReadings, reducedChiSquare } from '../../common/fitReadings.ts';
import { unitSlip } from '../../common/hints.ts';
import type { Report, ValueProblem } from '../../common/InputProblem.ts';
import { piecewiseLinear } from '../../common/numeric.ts';
import type { DriverReadings, DriverSection } from './schema.ts';
import { driverLaw } from './step.ts';

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
): PartFit | undefined {
  const drawn = drawnRows(section, readings, report);
  const law = drawn && lawFit(section, drawn, readings, report);
  if (law === undefined) return undefined;
  const asRead = settingsAsRead(section, readings);
  const known = drawn!.filter(({ efficiency }) => !Number.isNaN(efficiency));
  const half = STANDARD_ERRORS_90 * Math.SQRT2 * standardShare(readings.current_error_percent);
  const efficiencies = known.map(({ capacitor_V, efficiency }) => ({
    key: `efficiency at ${capacitor_V} V`,
    what: `efficiency at ${capacitor_V} V`,
    unit: '',
    ...around(efficiency, half),
    datasheet: statedEfficiency(section, capacitor_V),
  }));
  const table = known.map(({ capacitor_V, efficiency }) => ({
    capacitor_V,
    efficiency: significant(efficiency, 3),
  }));
  return {
    ...law,
    estimates: [...law.estimates, ...asRead, ...efficiencies],
    keys: {
      ...law.keys,
      ...Object.fromEntries(asRead.map(({ key, value }) => [key, value])),
      ...(table.length > 0 && { efficiency: table }),
    },
  };
}

/** What is taken as it was read. */
function settingsAsRead(section: DriverSection, readings: DriverReadings): Estimate[] {
  const { cutoff_V, restarts_V, standby_uA } = readings;
  const settings = [
    { key: 'cutoff_V', what: 'capacitor voltage at which it stops', unit: 'V', value: cutoff_V },
    { key: 'restart_V', what: 'capacitor voltage at which it starts again', unit: 'V', value: restarts_V },
    { key: 'standby_uA', what: 'current with the LED off', unit: 'uA', value: standby_uA },
  ] as const;
  return settings.flatMap(({ key, value, ...named }) => {
    if (value === undefined) return [];
    const datasheet = section[key];
    return { key, ...named, value, low: value, high: value, ...(datasheet !== undefined && { datasheet }) };
  });
}

function statedEfficiency({ efficiency }: DriverSection, capacitor_V: number): number {
  if (typeof efficiency === 'number') return efficiency;
  return piecewiseLinear(
    efficiency.map((row) => row.capacitor_V),
    efficiency.map((row) => row.efficiency),
    capacitor_V,
  );
}

type Row = DriverReadings['rows'][number];

function drawnRows(section: DriverSection, readings: DriverReadings, report: Report): Drawn[] | undefined {
  const law = driverLaw(section);
  const order = readings.rows
    .map((row, at) => ({ ...row, path: ['readings', 'rows', at] }))
    .sort((a, b) => a.capacitor_V - b.capacitor_V);
  const problems = order.flatMap(({ path, ...row }) => {
    const problem = rowProblem(row, law.inductor !== undefined);
    return problem === undefined ? [] : [{ ...problem, path: [...path, ...problem.path] }];
  });
  problems.forEach(report);
  if (problems.length > 0) return undefined;
  const part = standardShare(readings.current_error_percent);
  const step_A = (readings.current_step_mA / 1000) * ROUNDING;
  return order.map(({ path, ...row }) => {
    const { capacitor_V, supply_mA, led_V } = row;
    const isRead = supply_mA !== undefined;
    const supply_A = isRead
      ? supply_mA / 1000
      : ledPower_W(row) / (statedEfficiency(section, capacitor_V) * capacitor_V);
    return {
      path: [...path, isRead ? 'supply_mA' : 'led_mA'],
      capacitor_V,
      supply_A,
      error_A: hypot(step_A, supply_A * (isRead ? part : hypot(part, EFFICIENCY_LATITUDE))),
      output_V: led_V === undefined ? Number.NaN : led_V + law.rectifier_V,
      efficiency: Math.min(1, efficiencyOf(row)),
    };
  });
}

/** NaN where it cannot be told. */
function ledPower_W({ led_mA, led_V }: Row): number {
  return led_mA === undefined || led_V === undefined ? Number.NaN : (led_mA / 1000) * led_V;
}

/** NaN where it cannot be told. */
function efficiencyOf(row: Row): number {
  return row.supply_mA === undefined
    ? Number.NaN
    : ledPower_W(row) / ((row.supply_mA / 1000) * row.capacitor_V);
}

/** What a row cannot be, with the place of it below the row. */
function rowProblem(row: Row, isBoost: boolean): ValueProblem | undefined {
  const { capacitor_V, supply_mA, led_V } = row;
  if (supply_mA === undefined && Number.isNaN(ledPower_W(row))) {
    return {
      code: 'FIT_UNDETERMINED',
      path: [],
      got: 'a row without the current drawn',
      expected: 'supply_mA, or led_mA with led_V',
      fix: 'read the current from the capacitor into the driver',
    };
  }
  if (isBoost && led_V === undefined) {
    return {
      code: 'FIT_UNDETERMINED',
      path: [],
      got: 'a row of a boost without led_V',
      expected: 'the voltage across the LED beside the current drawn',
      fix: 'read the voltage across the LED too',
    };
  }
  const efficiency = efficiencyOf(row);
  if (!(efficiency > 1.02)) return undefined;
  const slip = unitSlip(efficiency, 0.9);
  return {
    code: slip === undefined ? 'SCENARIO_CONFLICT' : 'SCENARIO_WRONG_UNIT',
    path: ['supply_mA'],
    got: `${supply_mA} mA at ${capacitor_V} V, less than the ${(ledPower_W(row) * 1000).toPrecision(3)} mW of the LED`,
    expected: 'more power drawn than the LED takes',
    fix: slip === undefined ? 'read both again' : 'both currents are in mA',
  };
}

const NOTHING: PartFit = { estimates: [], readings: [], notes: [], keys: {} };

/** What the rows tell of the law; every row of the current drawn is a reading. */
function lawFit(
  section: DriverSection,
  rows: readonly Drawn[],
  readings: DriverReadings,
  report: Report,
): PartFit | undefined {
  const law = driverLaw(section);
  const { setting } = law;
  if (rows.length === 0) return NOTHING;
  if (setting === undefined) return tableOf(rows, report);
  const used = rows.filter(({ capacitor_V, output_V }) => capacitor_V < law.dcmBoundary_V(output_V));
  const notes =
    used.length < rows.length
      ? ['rows above (1 - duty) times the output are left out: they tell current_limit_mA, not the inductor']
      : [];
  if (used.length === 0) return { ...NOTHING, notes };
  const stated_A = used.map(({ capacitor_V, output_V }) => law.current_A(capacitor_V, output_V));
  const guess = used[0]!.supply_A / stated_A[0]!;
  const solved = fitReadings({
    unknowns: [{ start: guess, scale: 0.1 * guess }],
    priors: [],
    readings: used.map(({ path, capacitor_V, supply_A, error_A }) => ({
      what: `current drawn at ${capacitor_V} V`,
      unit: 'A',
      path,
      measured: supply_A,
      error: error_A,
    })),
    shownInto: (target, values) => target.set(stated_A.map((each) => each * values[0]!)),
  });
  const factor = solved.values[0]!;
  const { key, what, unit, value: stated } = setting;
  const { value } = law.times(factor).setting!;
  if (unitSlip(value, stated) !== undefined) {
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
  const shared = standardShare(readings.current_error_percent);
  const half = STANDARD_ERRORS_90 * hypot((solved.errors[0]! / factor) * scatter.factor, shared);
  return {
    estimates: [{ key, what, unit, ...around(value, half), datasheet: stated }],
    readings: fittedReadings(solved),
    notes: [...notes, ...scatter.notes],
    keys: { [key]: significant(value, 4) },
  };
}

function tableOf(rows: readonly Drawn[], report: Report): PartFit | undefined {
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
        current_mA: significant(supply_A * 1000, 4),
      })),
    },
  };
}
