import { STANDARD_ERRORS_90, significant } from '../../common/Estimate.ts';
import { standardError } from '../../common/leastValues.ts';
import { sheetFit } from './fromDatasheet.ts';
import { SILICON } from './SingleDiode.ts';
import type { CellSection } from './schema.ts';
import { bestShare, DIM_UNKNOWNS, type DimCell, type Sheet } from './sheetCell.ts';

/** So far from the stated current at the best point is worth a word. */
const BEST_MISSED = 0.01;

/**
 * What a cell's datasheet values leave open, or do not agree about. Sentences for a maker.
 *
 * in: section, as the schema gives it, library part merged in
 */
export function sheetFlags(section: CellSection): string[] {
  if (section.raw !== undefined || section.readings !== undefined) return [];
  const fit = sheetFit(section, () => {});
  if (fit === undefined) return [];
  const { sheet, cell, dim } = fit;
  const least_V = dim && leastShunt_V(sheet, dim);
  const shunt_V = cell.shunt_ohm * sheet.shortCircuit_A;
  const flags: string[] = [];
  if (least_V !== undefined && least_V < SILICON.fairShunt_V / 2) {
    flags.push(
      `low_light_point leaves the shunt open: ${significant(shunt_V, 2)} V is used, and as well as the ideality of silicon is known it may be anything from ${significant(least_V, 2)} V up. Dimmer light tells more: read the voltage by a window on a dull day, in about 10 W/m2.`,
    );
  }
  const share = bestShare(sheet, cell);
  if (share < 1 - BEST_MISSED) {
    flags.push(
      `Do the best point and the shunt go together? With ${significant(shunt_V, 2)} V the cell gives ${significant(1000 * share * sheet.best_A, 3)} mA at ${sheet.best_V} V, not ${section.best_current_mA} mA.`,
    );
  }
  return flags;
}

/**
 * Shunt times short-circuit current, volts, that a cell has at least (95 percent).
 *
 * in: sheet; dim, what was found for its point in dim light
 * out: undefined where that tells the shunt from none
 */
export function leastShunt_V({ shortCircuit_A }: Sheet, { found, unknowns }: DimCell): number | undefined {
  const at = DIM_UNKNOWNS.shunt_S;
  const shunt_S = found.values[at]!;
  const doubt_S = STANDARD_ERRORS_90 * standardError(found, unknowns, at);
  return doubt_S < shunt_S ? undefined : shortCircuit_A / (shunt_S + doubt_S);
}
