import { significant } from '../../common/Estimate.ts';
import { lacksValues, type Report, type ValueProblem } from '../../common/InputProblem.ts';
import { Kept } from '../../common/Kept.ts';
import { SILICON, type SingleDiode } from './SingleDiode.ts';
import type { CellSection } from './schema.ts';
import {
  cellOfSheet,
  type DimCell,
  dimCell,
  dimRange_V,
  mostShunt_S,
  type Sheet,
  sheetIdeality,
} from './sheetCell.ts';

const fits = new Kept<{ cell: SingleDiode; dim?: DimCell }>();

/**
 * One cell from its datasheet values, kept for the next lamp with the same cell.
 *
 * in: section, as the schema gives it, library part already merged in; report, takes what cannot be
 * out: the cell, or undefined after a problem
 */
export function fromDatasheet(section: CellSection, report: Report): SingleDiode | undefined {
  return sheetFit(section, report)?.cell;
}

/** The same with its datasheet, and what was found for its point in dim light. */
export function sheetFit(section: CellSection, report: Report) {
  const keys = ['short_circuit_mA', 'open_circuit_V', 'best_current_mA', 'best_voltage_V'] as const;
  if (lacksValues(section, keys, 'small-cell', report)) return undefined;
  const sheet = sheetOf(section);
  const problem = sheetProblem(section, sheet);
  if (problem !== undefined) {
    report(problem);
    return undefined;
  }
  const { low_light_point: dim, shunt_V } = section;
  const fit = fits.of([sheet, dim ?? shunt_V], () => {
    if (dim === undefined)
      return { cell: cellOfSheet(sheet, sheetIdeality(sheet), sheet.shortCircuit_A / shunt_V) };
    const found = dimCell(sheet, { irradiance_W_m2: dim.irradiance_W_m2, open_V: dim.open_circuit_V });
    return { cell: found.cell, dim: found };
  });
  return { sheet, ...fit };
}

function sheetOf(section: CellSection): Sheet {
  return {
    shortCircuit_A: section.short_circuit_mA! / 1000,
    openCircuit_V: section.open_circuit_V!,
    best_A: section.best_current_mA! / 1000,
    best_V: section.best_voltage_V!,
    junctions: section.cells_in_series,
  };
}

/** Why datasheet values are not of one cell; undefined where they are. */
function sheetProblem(section: CellSection, sheet: Sheet): ValueProblem | undefined {
  const { shortCircuit_A, openCircuit_V, best_A, best_V } = sheet;
  const filling = (best_A * best_V) / (shortCircuit_A * openCircuit_V);
  if (best_A >= shortCircuit_A || best_V >= openCircuit_V || filling < 0.3) {
    return {
      code: 'SCENARIO_CONFLICT',
      path: [best_A >= shortCircuit_A ? 'best_current_mA' : 'best_voltage_V'],
      got: `best point ${section.best_current_mA} mA at ${best_V} V`,
      expected: `a point below ${section.short_circuit_mA} mA and ${openCircuit_V} V with a fill factor over 0.3`,
      fix: 'look the four values up again; best point means maximum power in full sun',
    };
  }
  const leastShunt_V = shortCircuit_A / mostShunt_S(sheet);
  if (!(leastShunt_V > 0 && leastShunt_V < SILICON.bestShunt_V)) {
    return {
      code: 'SCENARIO_CONFLICT',
      path: ['best_voltage_V'],
      got: `${section.short_circuit_mA} mA, ${openCircuit_V} V, ${section.best_current_mA} mA at ${best_V} V`,
      expected: 'values that one cell of this many junctions can show',
      fix: 'check cells_in_series (about 0.6 V of open-circuit voltage each) and the best point',
    };
  }
  const { low_light_point: dim, shunt_V } = section;
  if (dim === undefined && shunt_V < leastShunt_V) {
    return {
      code: 'SCENARIO_CONFLICT',
      path: ['shunt_V'],
      got: `${shunt_V} V, a shunt that takes ${significant((1000 * best_V * shortCircuit_A) / shunt_V, 2)} mA at ${best_V} V`,
      expected: `at least ${leastShunt_V.toFixed(0)} V: the cell must give its ${section.best_current_mA} mA there`,
      fix: 'look shunt_V and the best point up again: of a cell that leaky the sheet states less',
    };
  }
  return dim && dimProblem(sheet, dim);
}

function dimProblem(
  sheet: Sheet,
  { irradiance_W_m2, open_circuit_V }: NonNullable<CellSection['low_light_point']>,
): ValueProblem | undefined {
  const [low, high] = dimRange_V(sheet, irradiance_W_m2);
  if (open_circuit_V >= low && open_circuit_V <= high) return undefined;
  return {
    code: 'SCENARIO_CONFLICT',
    path: ['low_light_point', 'open_circuit_V'],
    got: `${open_circuit_V} V in ${irradiance_W_m2} W/m2`,
    expected: `${low.toFixed(2)} to ${high.toFixed(2)} V: from the leakiest cell with that best point to an ideality of 1 and no shunt`,
    fix:
      open_circuit_V > high
        ? 'was the light brighter than stated, or the cell cold? The values are for 25 degC'
        : 'was the light dimmer than stated, or the cell warm? The values are for 25 degC; look the best point up too',
  };
}
